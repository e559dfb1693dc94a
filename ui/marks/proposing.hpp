// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/marks/propose_work.hpp"
#include "ui/marks/seen_clips.hpp"

#include <QObject>
#include <QPointer>

#include <filesystem>
#include <memory>
#include <optional>

namespace latemile::ui {

class ClipDocument;
class FollowPanel;
class Keys;
class MarkingFlow;

/// Proposing landmarks on the marks page: starts and ends the work, brings what came of it into the
/// document as one edit, asks for a box round the runner where one is needed, and tells all of it
/// on the panel. What was seen of a clip is kept beside it, so that proposing again after the coach
/// has placed marks, today or another day, takes no second look.
class Proposing final : public QObject {
    Q_OBJECT
public:
    Proposing(MarkingFlow& flow, FollowPanel& panel, const Keys& keys, QObject* parent = nullptr);
    ~Proposing() override;

    void setClip(ClipDocument* clip);
    /// Where the pose network lies; the program's own resources unless set.
    void setResources(std::filesystem::path resources) { m_resources = std::move(resources); }
    [[nodiscard]] bool isBusy() const { return m_work->isBusy(); }

    void propose();
    void stop();
    /// The first step of a clip that the coach has confirmed whole teaches the others.
    void learnFrom(StepNumber step);
    /// Frames of cells that came to be since the last proposing; nothing where there was none.
    void fillCells();
    /// Asks for a box round the runner on the frame shown.
    void askBox();
    void useBox(const Box& box);
    void leaveBox();
    [[nodiscard]] bool isAskingBox() const { return m_asksBox; }
    /// Near for far leg, from the frame shown on.
    void exchangeLegs();
    /// Why the row was not accepted.
    void tellRowRefused(const MarkKey& key, double sePx, double boundPx);

signals:
    void boxAsked(bool asked);
    void legsExchanged();

private:
    [[nodiscard]] bool isUsable() const;
    [[nodiscard]] std::vector<FrameNumber> unseenOf(std::vector<FrameNumber> frames);
    [[nodiscard]] std::vector<FrameNumber> cellFrames() const;
    [[nodiscard]] bool isAllProposed() const;
    void begin();
    void look(std::vector<FrameNumber> frames);
    void take(const std::shared_ptr<const ProposeResult>& result);
    [[nodiscard]] QString workName() const;
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
    QPointer<ClipDocument> m_proposed;    ///< the clip at work
    std::vector<FrameNumber> m_later;     ///< of it, to be looked at in a second go
    int m_piece{};                        ///< of work: its parts are one edit
    std::optional<StepNumber> m_taughtBy; ///< the step that the work at hand learns from
    bool m_isOtherRunner{};               ///< another box: all that stands is replaced
    bool m_asksBox{};
    bool m_isQuiet{}; ///< the work at hand was not asked for: nothing is told of it
};

} // namespace latemile::ui
