// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/linked_film.hpp"

#include "core/files/checksum.hpp"
#include "core/store/clip_sums.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <cctype>
#include <ranges>
#include <system_error>

namespace latemile {

namespace {

using Path = std::filesystem::path;

std::string lowered(std::string text)
{
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

bool isOfKind(const Path& file, const Path& other)
{
    return lowered(file.extension().string()) == lowered(other.extension().string());
}

/// Plain files below the folder; links and folders that may not be looked into are passed over.
Outcome<std::vector<Path>> filesBelow(const Path& folder, const GoOn& goOn)
{
    constexpr auto lenient = std::filesystem::directory_options::skip_permission_denied;
    std::vector<Path> files;
    std::error_code fault;
    for (std::filesystem::recursive_directory_iterator at(folder, lenient, fault), end;
         !fault && at != end; at.increment(fault)) {
        if (goOn && !goOn(0.0)) {
            return fail(Error::Kind::Cancelled, "Stopped looking in " + folder.string() + ".");
        }
        std::error_code ignored;
        if (!at->is_symlink(ignored) && at->is_regular_file(ignored)) {
            files.push_back(at->path());
        }
    }
    if (fault) {
        return readFault(folder, fault.value());
    }
    return files;
}

Outcome<std::vector<Path>> candidates(const Path& lastName, const Path& folder, const GoOn& goOn)
{
    ASSIGN_OR_RETURN(auto files, filesBelow(folder, goOn));
    std::erase_if(files, [&](const Path& file) { return !isOfKind(file, lastName); });
    std::ranges::stable_partition(files,
                                  [name = lowered(lastName.filename().string())](const Path& file) {
                                      return lowered(file.filename().string()) == name;
                                  });
    return files;
}

} // namespace

Outcome<void> linkFilm(const Path& film, const Path& clip)
{
    std::error_code fault;
    if (std::filesystem::exists(std::filesystem::symlink_status(clip, fault)) &&
        !std::filesystem::is_symlink(clip, fault)) {
        return fail(Error::Kind::Inconsistent, clip.string() + " is a film of the session's own.");
    }
    const auto whole = std::filesystem::absolute(film, fault).lexically_normal();
    const Path beside(clip.string() + ".part");
    std::filesystem::remove(beside, fault);
    std::filesystem::create_symlink(whole, beside, fault);
    if (fault) {
        return fail(Error::Kind::Unsupported, "The disk of " + folderOf(clip).string() +
                                                  " holds no links (" + fault.message() +
                                                  "): copy the film instead.");
    }
    std::filesystem::rename(beside, clip, fault);
    const auto synced = syncFolder(disk(), folderOf(clip));
    return fault    ? writeFault(clip, fault.value())
           : synced ? Outcome<void>()
                    : writeFault(clip, synced.error());
}

std::optional<Path> linkedFilmOf(const Path& clip)
{
    std::error_code fault;
    auto film = std::filesystem::read_symlink(clip, fault);
    return fault ? std::nullopt : std::optional(folderOf(clip) / film);
}

std::vector<Path> linkedFilmsIn(const Path& folder)
{
    std::vector<Path> films;
    std::error_code fault;
    for (std::filesystem::recursive_directory_iterator at(folder, fault), end; !fault && at != end;
         at.increment(fault)) {
        if (auto film = linkedFilmOf(at->path())) {
            films.push_back(std::move(*film));
        }
    }
    std::ranges::sort(films);
    return films;
}

std::string lostFilmSentence(const Path& clip)
{
    std::error_code ignored;
    const auto film = linkedFilmOf(clip);
    if (!film || std::filesystem::exists(*film, ignored)) {
        return {};
    }
    return "The film of this clip was linked and is not there any more: " + film->string() +
           ". Connect its disk, or find the film where it is now.";
}

Outcome<std::optional<Path>> findFilm(const std::string& sum, const Path& lastName,
                                      const Path& folder, const GoOn& goOn)
{
    ASSIGN_OR_RETURN(const auto files, candidates(lastName, folder, goOn));
    for (std::size_t i = 0; i < files.size(); ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(files.size());
        const auto found = sha256OfFile(files[i], disk(), [&] { return !goOn || goOn(share); });
        if (!found && found.error().kind == Error::Kind::Cancelled) {
            return tl::unexpected(found.error());
        }
        if (found && *found == sum) {
            return files[i];
        }
    }
    return std::nullopt;
}

Outcome<Path> findAgain(const Path& clip, const Path& folder, const GoOn& goOn)
{
    const auto last = linkedFilmOf(clip);
    if (!last) {
        return fail(Error::Kind::Inconsistent, clip.string() + " is a film of the session's own.");
    }
    ASSIGN_OR_RETURN(const auto sums, readClipSums(folderOf(clip)));
    const auto known = sums.find(clip.filename().string());
    if (known == sums.end()) {
        return fail(Error::Kind::NotFound, "No checksum of " + clip.filename().string() +
                                               " was written down: it cannot be told from other "
                                               "films.");
    }
    ASSIGN_OR_RETURN(const auto found, findFilm(known->second, *last, folder, goOn));
    if (!found) {
        return fail(Error::Kind::NotFound, "The film " + last->filename().string() + " is not in " +
                                               folder.string() +
                                               ", under any name: choose another folder.");
    }
    RETURN_IF_ERROR(linkFilm(*found, clip));
    return *found;
}

} // namespace latemile
