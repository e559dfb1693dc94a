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

std::optional<FilmCheck::State> FilmCheck::stateOf(const std::filesystem::path& clip)
{
    std::error_code fault;
    const State state{std::filesystem::file_size(clip, fault),
                      std::filesystem::last_write_time(clip, fault)};
    return fault ? std::nullopt : std::optional(state);
}

void FilmCheck::check(const std::filesystem::path& clip)
{
    const auto state = stateOf(clip);
    const auto known = m_known.find(clip);
    if (state && known != m_known.end() && known->second.first == *state) {
        emit checked(known->second.second);
        return;
    }
    start<bool>(
        [clip](const Tell& tell) { return isAsItCame(clip, [&tell] { return tell(0.0); }); },
        [this, clip, state](bool isOriginal) {
            if (state) {
                m_known.insert_or_assign(clip, std::pair(*state, isOriginal));
            }
            emit checked(isOriginal);
        });
}

void FilmSearch::search(const std::filesystem::path& clip, const std::filesystem::path& folder)
{
    start<std::filesystem::path>(
        [clip, folder](const Tell& tell) { return findAgain(clip, folder, tell); },
        [this](const std::filesystem::path& film) { emit found(fromUtf8(film.string())); });
}

} // namespace latemile::ui
