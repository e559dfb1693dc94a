// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

#include <filesystem>
#include <optional>

namespace latemile {

/// The athlete's filming day before this one: by the names of the folders, which are dates. Nothing
/// where there is none that can be read.
struct Visit {
    std::filesystem::path folder;
    Session session;
};
[[nodiscard]] std::optional<Visit> visitBefore(const std::filesystem::path& sessionFolder);

/// The clip of an earlier day whose like is to be filmed next: the first, in the order of that day,
/// whose condition and view today's clips have not got yet. Nothing when all are there.
[[nodiscard]] const SessionClip* nextLike(const Session& before, const Session& today);
/// The clip of an earlier day with the same condition and view.
[[nodiscard]] const SessionClip* sameOf(const Session& before, const SessionClip& clip);

/// A new clip that is taken to be filmed like `before`: condition, minute, incline, shoes, camera
/// side, direction and speed. Not its lines, which a camera test must allow first, nor what only
/// today knows: exertion, pain, marks, capture rate.
[[nodiscard]] SessionClip startedLike(const SessionClip& before, std::string file);

/// What is taken to be true of a clip that comes into `today`, the session in that folder: filmed
/// like the clip of the day before whose turn it is, else like the last one of today at another
/// minute, of the condition that is still wanted.
[[nodiscard]] SessionClip firstSaid(const std::filesystem::path& sessionFolder,
                                    const Session& today, const std::string& file);

/// True where the scene has a scale, plumb or ground line, corners or a lens.
[[nodiscard]] bool hasLines(const Scene& scene);
/// `to` with the lines and lens of `from`; what else `to` says stays.
[[nodiscard]] Scene withLinesOf(Scene to, const Scene& from);

} // namespace latemile
