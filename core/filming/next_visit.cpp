// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/next_visit.hpp"

#include "core/store/athlete_sessions.hpp"

#include <algorithm>
#include <utility>

namespace latemile {

namespace {

bool isLike(const SessionClip& a, const SessionClip& b)
{
    return a.condition == b.condition && a.scene.view == b.scene.view;
}

/// Without a separator at its end, so that its last part is a name.
std::filesystem::path plain(const std::filesystem::path& folder)
{
    const auto whole = std::filesystem::absolute(folder).lexically_normal();
    return whole.has_filename() ? whole : whole.parent_path();
}

} // namespace

std::optional<Visit> visitBefore(const std::filesystem::path& sessionFolder)
{
    const auto today = plain(sessionFolder);
    auto folders = sessionFoldersOf(today.parent_path());
    std::erase_if(folders, [&](const auto& folder) {
        return folder.filename().string() >= today.filename().string();
    });
    for (auto folder = folders.rbegin(); folder != folders.rend(); ++folder) {
        if (auto session = readSession(*folder); session && !session->clips.empty()) {
            return Visit{*folder, std::move(*session)};
        }
    }
    return std::nullopt;
}

const SessionClip* nextLike(const Session& before, const Session& today)
{
    for (const auto& clip : before.clips) {
        const bool filmed = std::ranges::any_of(
            today.clips, [&](const SessionClip& other) { return isLike(clip, other); });
        if (!filmed) {
            return &clip;
        }
    }
    return nullptr;
}

const SessionClip* sameOf(const Session& before, const SessionClip& clip)
{
    const auto found = std::ranges::find_if(
        before.clips, [&](const SessionClip& other) { return isLike(clip, other); });
    return found == before.clips.end() ? nullptr : &*found;
}

SessionClip startedLike(const SessionClip& before, std::string file)
{
    SessionClip clip;
    clip.file = std::move(file);
    clip.condition = before.condition;
    clip.minute = before.minute;
    clip.inclinePercent = before.inclinePercent;
    clip.shoes = before.shoes;
    clip.scene.view = before.scene.view;
    clip.scene.travel = before.scene.travel;
    clip.scene.beltSpeed = before.scene.beltSpeed;
    return clip;
}

SessionClip firstSaid(const std::filesystem::path& sessionFolder, const Session& today,
                      const std::string& file)
{
    if (const auto before = visitBefore(sessionFolder)) {
        if (const SessionClip* like = nextLike(before->session, today)) {
            return startedLike(*like, file);
        }
    }
    const auto has = [&today](std::string_view condition) {
        return std::ranges::find(today.clips, condition, &SessionClip::condition) !=
               today.clips.end();
    };
    SessionClip clip = today.clips.empty() ? SessionClip() : startedLike(today.clips.back(), file);
    clip.file = file;
    clip.minute.reset();
    clip.condition = !has("fresh") ? "fresh" : !has("fatigued") ? "fatigued" : "other";
    return clip;
}

bool hasLines(const Scene& scene)
{
    return scene.scale || scene.plumb || scene.groundV || scene.plane || scene.lens;
}

Scene withLinesOf(Scene to, const Scene& from)
{
    to.scale = from.scale;
    to.moreScales = from.moreScales;
    to.plumb = from.plumb;
    to.groundV = from.groundV;
    to.plane = from.plane;
    to.lens = from.lens;
    return to;
}

} // namespace latemile
