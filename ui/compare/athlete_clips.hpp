// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <QObject>
#include <QUndoStack>

#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <vector>

namespace latemile::ui {

class ClipDocument;
class SessionDocument;

/// The clips of all the athlete's filming days: those of the session at hand as they are being
/// edited, the others as they lie on disk, to be looked at only. One of another day is opened when
/// it is first asked for.
class AthleteClips final : public QObject {
    Q_OBJECT
public:
    explicit AthleteClips(SessionDocument& session, QObject* parent = nullptr);
    ~AthleteClips() override;

    struct Entry {
        QString key;  ///< the same for as long as the clip is
        QString name; ///< "2026-08-29 · Fresh, minute 6"
        std::string condition;
        bool ofThisDay{};
    };
    /// This day's first, then the others from the latest back.
    [[nodiscard]] const std::vector<Entry>& entries() const { return m_entries; }
    /// nullptr where there is no such clip any more.
    [[nodiscard]] ClipDocument* clip(const QString& key);
    /// Lets go of all opened clips of other days but these.
    void keepOnly(const std::set<QString>& keys);
    /// Looks at the folders again.
    void renew();

signals:
    void changed();
    void clipGoing(latemile::ui::ClipDocument* clip); ///< still whole, for views to let go of

private:
    struct OnDisk {
        std::filesystem::path folder;
        std::string date;
        SessionClip clip;
    };
    void addThisDay();
    void addOtherDays();
    void dropStale();

    SessionDocument& m_session;
    QUndoStack m_noHistory; ///< clips of other days are not edited here
    std::vector<Entry> m_entries;
    std::map<QString, OnDisk> m_onDisk;
    std::map<QString, std::unique_ptr<ClipDocument>> m_opened;
};

} // namespace latemile::ui
