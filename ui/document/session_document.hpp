// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/coaches.hpp"
#include "core/store/session.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/edit_record.hpp"
#include "ui/document/saver.hpp"

#include <QObject>
#include <QUndoStack>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace latemile::ui {

/// What a session says beside its clips.
struct SessionAbout {
    std::string date;
    std::string note;
    std::string coach;
    std::vector<std::string> measures; ///< chosen for the sheet
    std::vector<std::string> cues;
    bool measuresAfterLooking{}; ///< these and the rest as of Session
    StillWish stills;
    std::optional<Screening> screening;
    std::string nextRefilm;
    bool operator==(const SessionAbout&) const = default;
};

/// One filming day on the table, with its history of edits. Saves itself.
class SessionDocument final : public QObject {
    Q_OBJECT
public:
    static Outcome<std::unique_ptr<SessionDocument>> open(const std::filesystem::path& folder);
    ~SessionDocument() override;

    [[nodiscard]] const std::filesystem::path& folder() const { return m_folder; }
    [[nodiscard]] const Athlete& athlete() const { return m_athlete; }
    [[nodiscard]] const SessionAbout& about() const { return m_about; }
    [[nodiscard]] QUndoStack& history() { return m_history; }
    [[nodiscard]] Saver& saver() { return m_saver; }
    /// Somebody else has it open, the folder cannot be written to, or edits of an earlier run wait
    /// for an answer. An edit is then taken back at once.
    [[nodiscard]] bool isReadOnly() const { return m_saver.state() == Saver::State::ReadOnly; }
    [[nodiscard]] std::vector<ClipDocument*> clips() const;
    /// The first of a condition, or nothing.
    [[nodiscard]] ClipDocument* clipOf(std::string_view condition) const;
    [[nodiscard]] Session session() const; ///< all of it as a value

    [[nodiscard]] std::unique_ptr<ClipDocument> makeClip(SessionClip clip);
    ClipDocument& insertClip(std::size_t at, std::unique_ptr<ClipDocument> clip);
    std::unique_ptr<ClipDocument> takeClip(std::size_t at);
    SessionAbout replaceAbout(SessionAbout about);
    /// Says what `session` says, telling only what differs. Clips that are in it no more are set
    /// aside, for edits that may bring them back.
    void become(const Session& session);
    /// Written to athlete.json at once: several sessions share it.
    Athlete replaceAthlete(Athlete athlete);
    /// What a blind repeat told of a coach: kept in the library, and the readings follow.
    Outcome<void> keepCoach(const Coach& coach);

    /// The coach's own measures, of the library this session lies in.
    [[nodiscard]] const OwnMeasures& ownMeasures() const { return m_own; }
    /// Why they could not be read, and are left out of the readings; else empty.
    [[nodiscard]] const QString& ownMeasuresFault() const { return m_ownFault; }
    /// Once more from the library, where somebody else may have changed them.
    void readOwnMeasures();
    /// In place of those last read: kept in the library, and the readings follow.
    Outcome<void> keepOwnMeasures(const OwnMeasures& own);

    /// What the athlete's measures are to a clip, for one of another day too.
    void tellAthlete(ClipDocument& clip) const;

signals:
    void clipsChanged();
    void clipGoing(latemile::ui::ClipDocument* clip); ///< still whole, for views to let go of
    void aboutChanged();
    void athleteChanged();
    void ownMeasuresChanged();
    void saveFailed(const QString& sentence);
    void editRefused(); ///< the session is read only

private:
    SessionDocument(std::filesystem::path folder, SessionFile file, Athlete athlete);
    void readClicks();
    void refuseEdits();
    void bringBackHistory(const EditHistory& past);
    void becomeClips(const std::vector<SessionClip>& clips);
    [[nodiscard]] std::unique_ptr<ClipDocument> clipFor(const SessionClip& clip);

    const std::filesystem::path m_folder;
    Athlete m_athlete;
    ClickErrors m_clicks; ///< of the coach of this session
    OwnMeasures m_own;
    QString m_ownFault;
    SessionAbout m_about;
    const Session m_read; ///< as it was read: keeps what no page edits
    std::vector<std::unique_ptr<ClipDocument>> m_clips;
    std::vector<std::unique_ptr<ClipDocument>> m_aside; ///< taken out by an edit of an earlier run
    QUndoStack m_history;                               ///< may hold clips that were taken out
    bool m_historyLives{};                              ///< its edits of earlier runs do something
    EditRecord m_record;
    Saver m_saver;
};

/// The athlete's document of a session folder: one level up.
[[nodiscard]] std::filesystem::path athleteFileOf(const std::filesystem::path& sessionFolder);

} // namespace latemile::ui
