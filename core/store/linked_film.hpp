// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/store/go_on.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace latemile {

/// A film may stay where the coach keeps it: its clip in the session's folder is then a symbolic
/// link to it, and the checksum in SHA256SUMS tells whether it is still that film.

/// Makes `clip` a link to `film`, in place of an older link; a plain file there is an Error, and so
/// is a disk that holds no links.
Outcome<void> linkFilm(const std::filesystem::path& film, const std::filesystem::path& clip);

/// Where the film of a linked clip is kept, be it there or not; nothing where the clip is a file of
/// the session's own.
[[nodiscard]] std::optional<std::filesystem::path> linkedFilmOf(const std::filesystem::path& clip);
/// Of every linked clip below an athlete's or a session's folder.
[[nodiscard]] std::vector<std::filesystem::path> linkedFilmsIn(const std::filesystem::path& folder);

/// Where the film of a linked clip is not there any more: what a coach can do about it; else empty.
[[nodiscard]] std::string lostFilmSentence(const std::filesystem::path& clip);

/// The film with this SHA-256 in a folder or below it: files of the name it had come first, then
/// others of its kind (by their ending). Nothing where it is not there; what cannot be read is
/// passed over. Reads whole films: as long as the disk takes.
Outcome<std::optional<std::filesystem::path>> findFilm(const std::string& sum,
                                                       const std::filesystem::path& lastName,
                                                       const std::filesystem::path& folder,
                                                       const GoOn& goOn = {});
/// Looks for the film of a linked clip by the sum written down when it came, and links it anew;
/// gives where it was found. Not found is an Error that says so.
Outcome<std::filesystem::path> findAgain(const std::filesystem::path& clip,
                                         const std::filesystem::path& folder,
                                         const GoOn& goOn = {});

} // namespace latemile
