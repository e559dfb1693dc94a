// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/film_work.hpp"

#include "core/files/checksum.hpp"
#include "core/store/clip_sums.hpp"
#include "core/store/linked_film.hpp"
#include "ui/text/words.hpp"

namespace latemile::ui {
namespace {

Outcome<bool> isAsItCame(const std::filesystem::path& clip, const std::function<bool()>& goOn)
{
    ASSIGN_OR_RETURN(const auto sums, readClipSums(clip.parent_path()));
    const auto known = sums.find(clip.filename().string());
    if (known == sums.end()) {
        return true;
    }
    ASSIGN_OR_RETURN(const auto now, sha256OfFile(clip, disk(), goOn));
    return now == known->second;
}

} // namespace

void FilmCheck::check(const std::filesystem::path& clip)
{
    start<bool>(
        [clip](const Tell& tell) { return isAsItCame(clip, [&tell] { return tell(0.0); }); },
        [this](bool isOriginal) { emit checked(isOriginal); });
}

void FilmSearch::search(const std::filesystem::path& clip, const std::filesystem::path& folder)
{
    start<std::filesystem::path>(
        [clip, folder](const Tell& tell) { return findAgain(clip, folder, tell); },
        [this](const std::filesystem::path& film) { emit found(fromUtf8(film.string())); });
}

} // namespace latemile::ui
