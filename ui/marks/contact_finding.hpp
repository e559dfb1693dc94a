// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"
#include "ui/marks/contact_work.hpp"

#include <QObject>
#include <QPointer>

#include <filesystem>
#include <map>
#include <optional>
#include <vector>

namespace latemile::ui {

class ClipDocument;
class FollowPanel;
class Keys;
class MarkingFlow;

/// Contacts and toe-offs on the marks page that the program finds: starts and stops the work,
/// brings what was found into the document as proposals, and leads the coach through them.
class ContactFinding final : public QObject {
    Q_OBJECT
public:
    ContactFinding(MarkingFlow& flow, FollowPanel& panel, const Keys& keys,
                   QObject* parent = nullptr);

    /// Another clip is shown.
    void letGo() { m_landing.reset(); }
    /// Another runner is looked at: nothing was found of her before.
    void forget(const ClipDocument* clip);
    [[nodiscard]] bool isBusy() const { return m_work->isBusy(); }

    /// At once where the marks alone tell, else in the background, by the pictures.
    void find();
    /// The same unasked, while landmarks are being proposed: that there is none is not told, nor,
    /// in a part of the clip, what there is to remark.
    void findAlong(bool inWholeClip);
    void stop();
    /// Yes to the proposed event shown: from a contact on to its toe-off, with the toe-off to the
    /// whole stance and on to the next proposal.
    void acceptEvent();
    void acceptAll();
    void accept(StepNumber step);
    void reject(StepNumber step);

signals:
    void placeWanted(const latemile::ui::StepInstant& place);
    void stopped();           ///< by the coach; `settled` follows
    void settled(bool taken); ///< the work ended; what was found is in the document, or not

private:
    [[nodiscard]] bool isUsable() const;
    [[nodiscard]] std::optional<StepNumber> nextProposed() const;
    [[nodiscard]] bool hasToeOffToShow() const;
    void begin(ClipDocument& clip);
    /// Of the work: into the clip as it was then, or not at all.
    void arrive(const ContactFindings& findings);
    void take(ClipDocument& clip, const ContactFindings& findings);
    [[nodiscard]] std::optional<Stance> stanceAtHand() const;
    [[nodiscard]] std::vector<Stance> withoutRejected(std::vector<Stance> found,
                                                      const ClipDocument& clip);
    void noteAlong(const ClipDocument& clip);
    void stayAt(const Stance& stance, bool isLanding);
    void tell(const QString& sentence, const char* state);
    void tellFound(const ContactFindings& findings, std::size_t proposed);

    MarkingFlow& m_flow;
    FollowPanel& m_panel;
    const Keys& m_keys;
    ContactWork* m_work;
    QPointer<ClipDocument> m_looked; ///< the clip at work ...
    Marking m_asked;                 ///< ... its marks and placed stances when it began ...
    Scene m_scene;                   ///< ... and its scene
    bool m_isAsked{};                ///< by the coach
    bool m_tellsRemarks{};
    /// Of a clip that is searched unasked, while it is.
    struct Along {
        std::vector<Stance> put;      ///< that stood after the last finding
        std::vector<Stance> rejected; ///< by the coach, who took them away between two findings
    };
    std::map<std::filesystem::path, Along> m_along; ///< by the clip's file
    std::optional<StepNumber> m_landing; ///< whose contact is being judged, its toe-off not yet
};

} // namespace latemile::ui
