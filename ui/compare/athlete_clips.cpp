// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/athlete_clips.hpp"

#include "core/store/athlete_sessions.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <algorithm>

namespace latemile::ui {
namespace {

QString keyOf(const std::filesystem::path& folder, const std::string& file)
{
    return QString::fromStdString((folder / file).lexically_normal().string());
}

QString nameOf(const std::string& date, const QString& clip)
{
    return date.empty() ? clip : fromUtf8(date) + QStringLiteral(" · ") + clip;
}

} // namespace

AthleteClips::AthleteClips(SessionDocument& session, QObject* parent)
    : QObject(parent), m_session(session)
{
    connect(&session, &SessionDocument::clipsChanged, this, &AthleteClips::renew);
    renew();
}

AthleteClips::~AthleteClips() = default;

void AthleteClips::renew()
{
    m_entries.clear();
    m_onDisk.clear();
    addThisDay();
    addOtherDays();
    dropStale();
    emit changed();
}

/// A clip of another day that was edited or removed since it was opened here.
void AthleteClips::dropStale()
{
    for (auto opened = m_opened.begin(); opened != m_opened.end();) {
        const auto now = m_onDisk.find(opened->first);
        if (now != m_onDisk.end() && now->second.clip == opened->second->clip()) {
            ++opened;
            continue;
        }
        emit clipGoing(opened->second.get());
        opened = m_opened.erase(opened);
    }
}

void AthleteClips::addThisDay()
{
    for (ClipDocument* clip : m_session.clips()) {
        connect(clip, &ClipDocument::detailsChanged, this, &AthleteClips::renew,
                Qt::UniqueConnection);
        m_entries.push_back({.key = keyOf(m_session.folder(), clip->clip().file),
                             .name = nameOf(m_session.about().date, clipName(*clip)),
                             .condition = clip->clip().condition,
                             .ofThisDay = true});
    }
}

/// A session that cannot be read offers no clips here; its own page tells why.
void AthleteClips::addOtherDays()
{
    const auto athlete = athleteFileOf(m_session.folder()).parent_path();
    auto folders = sessionFoldersOf(athlete);
    std::ranges::reverse(folders);
    for (const auto& folder : folders) {
        std::error_code ignored;
        if (std::filesystem::equivalent(folder, m_session.folder(), ignored)) {
            continue;
        }
        const auto session = readSession(folder);
        if (!session) {
            continue;
        }
        for (const SessionClip& clip : session->clips) {
            const QString key = keyOf(folder, clip.file);
            m_entries.push_back({.key = key,
                                 .name = nameOf(session->date, clipName(clip)),
                                 .condition = clip.condition,
                                 .ofThisDay = false});
            m_onDisk[key] = {folder, session->date, clip};
        }
    }
}

ClipDocument* AthleteClips::clip(const QString& key)
{
    for (ClipDocument* clip : m_session.clips()) {
        if (keyOf(m_session.folder(), clip->clip().file) == key) {
            return clip;
        }
    }
    if (const auto opened = m_opened.find(key); opened != m_opened.end()) {
        return opened->second.get();
    }
    const auto found = m_onDisk.find(key);
    if (found == m_onDisk.end()) {
        return nullptr;
    }
    const auto& [folder, date, clip] = found->second;
    auto document = std::make_unique<ClipDocument>(folder, date, clip, m_noHistory);
    m_session.tellAthlete(*document);
    return m_opened.emplace(key, std::move(document)).first->second.get();
}

void AthleteClips::keepOnly(const std::set<QString>& keys)
{
    std::erase_if(m_opened, [&keys](const auto& opened) { return !keys.contains(opened.first); });
}

} // namespace latemile::ui
