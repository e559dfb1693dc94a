// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/marks/next_looks.hpp"
#include "ui/marks/propose_work.hpp"
#include "ui/marks/seen_clips.hpp"

#include <QObject>
#include <QPointer>

#include <filesystem>
#include <memory>
#include <optional>
#include <set>

namespace latemile::ui {

class ClipDocument;
class FollowPanel;
class Keys;
class MarkingFlow;

/// Proposing landmarks on the marks page: starts and ends the work, brings what came of it into the
/// document (parts with nothing between them are one edit), asks for a box round the runner where
/// one is needed, and tells all of it on the panel. What was seen of a clip is kept beside it, so
/// that proposing again after the coach has placed marks, today or another day, takes no second
/// look.
class Proposing final : public QObject {
    Q_OBJECT
public:
    Proposing(MarkingFlow& flow, FollowPanel& panel, const Keys& keys, QObject* parent = nullptr);
    ~Proposing() override;

    void setClip(ClipDocument* clip);
    /// Where the pose network lies; the program's own resources unless set.
    void setResources(std::filesystem::path resources) { m_resources = std::move(resources); }
    [[nodiscard]] bool isBusy() const { return m_work->isBusy() || m_waits; }

    void propose();
    void stop();
    /// The first step of a clip that the coach has confirmed whole teaches the others.
    void learnFrom(StepNumber step);
    /// Contacts were looked for: goes on where this waited for them, else proposes on the frames of
    /// cells that came to be since the last proposing; nothing where there was none.
    void contactsSettled(bool taken);
    /// By the coach, and so is proposing where it waited for them.
    void contactsStopped();
    /// Asks for a box round the runner on the frame shown.
    void askBox();
    void useBox(const Box& box);
    void leaveBox();
    [[nodiscard]] bool isAskingBox() const { return m_asksBox; }
    /// Near for far leg, from the frame shown on.
    void exchangeLegs();
    /// Why the row was not accepted.
    void tellRowRefused(const MarkKey& key, double sePx, double boundPx);
    /// Why neither cell nor row was.
    void tellEventsRefused(Seconds se, Seconds bound);

signals:
    void boxAsked(bool asked);
    /// A clip without any: there is enough to find some from.
    void contactsWanted(bool inWholeClip);
    /// What was found of another runner is gone.
    void runnerChanged(latemile::ui::ClipDocument* clip);
    void legsExchanged();

private:
    [[nodiscard]] bool isUsable() const;
    [[nodiscard]] LookedAt lookedAt() const;
    [[nodiscard]] std::vector<FrameNumber> cellFrames() const;
    [[nodiscard]] bool isAllProposed() const;
    void begin();
    void goOn();
    void look(NextLooks looks);
    void work(std::vector<FrameNumber> frames);
    [[nodiscard]] bool areLegsExchangedSince() const;
    void clearOtherRunner();
    void fillCells();
    void take(const std::shared_ptr<const ProposeResult>& result);
    [[nodiscard]] bool isGoingOn(const ProposeResult& result);
    void put(const ProposeResult& result);
    void finish(const ProposeResult& result);
    void teach();
    void end();
    void tellOfWork(const QString& sentence, const char* state);
    void tellShare(int percent);
    [[nodiscard]] QString stoppedText() const;
    void tellProposed(const ProposeResult& result);
    void tellButtons();
    void tellBox(const QString& sentence);

    MarkingFlow& m_flow;
    FollowPanel& m_panel;
    const Keys& m_keys;
    std::filesystem::path m_resources;
    ProposeWork* m_work;
    SeenClips* m_seen;
    QPointer<ClipDocument> m_shown;
    QPointer<ClipDocument> m_proposed; ///< the clip at work
    LegTurns m_turns;                  ///< that the work at hand takes as made
    std::set<MarkKey> m_put;           ///< by this piece of work into the document
    NextLooks m_looks;                 ///< at work
    bool m_findsContacts{};            ///< of the clip at work, whose coach has marked none
    bool m_findsAfter{};               ///< the work at hand: contacts can be found better then
    bool m_waits{};                    ///< for contacts, before it goes on
    std::shared_ptr<PoseNetworks> m_networks; ///< open while there is work
    bool m_knowsStep{}; ///< the work at hand began with a step confirmed whole, to learn from
    int m_piece{};      ///< of work: parts one after the other are one edit
    bool m_teaches{};   ///< the work at hand learns from a step that was confirmed
    bool m_asksBox{};
    bool m_isQuiet{}; ///< the work at hand was not asked for: nothing is told of it
};

} // namespace latemile::ui
