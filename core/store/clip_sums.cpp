// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/clip_sums.hpp"

#include "core/files/checksum.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

namespace latemile {

namespace {

constexpr const char* sumsFile = "SHA256SUMS";
constexpr std::size_t sumFigures = 64;

/// A line of a name with a backslash or a line end begins with a backslash, and has them escaped.
std::string lineOf(const std::string& name, const std::string& sum)
{
    std::string escaped;
    for (const char c : name) {
        escaped += c == '\\' ? "\\\\" : c == '\n' ? "\\n" : std::string(1, c);
    }
    return (escaped == name ? "" : "\\") + sum + "  " + escaped + "\n";
}

std::string unescaped(std::string_view text)
{
    std::string name;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool escape = text[i] == '\\' && i + 1 < text.size();
        name += escape ? (text[i + 1] == 'n' ? '\n' : text[i + 1]) : text[i];
        i += escape ? 1 : 0;
    }
    return name;
}

/// Name and sum.
std::optional<std::pair<std::string, std::string>> entryFrom(std::string_view line)
{
    const bool escaped = line.starts_with('\\');
    line.remove_prefix(escaped ? 1 : 0);
    const auto sum = line.substr(0, sumFigures);
    if (line.size() < sumFigures + 3 || line[sumFigures] != ' ' ||
        sum.find_first_not_of("0123456789abcdef") != std::string_view::npos) {
        return std::nullopt;
    }
    const auto name = line.substr(sumFigures + 2);
    return std::pair(escaped ? unescaped(name) : std::string(name), std::string(sum));
}

} // namespace

Outcome<ClipSums> readClipSums(const std::filesystem::path& clipsFolder, FileSystem& files)
{
    const auto text = readWholeFile(clipsFolder / sumsFile, files);
    if (!text && text.error().kind == Error::Kind::NotFound) {
        return ClipSums{};
    }
    if (!text) {
        return tl::unexpected(text.error());
    }
    ClipSums sums;
    std::string_view rest = *text;
    for (int line = 1; !rest.empty(); ++line) {
        const auto end = std::min(rest.find('\n'), rest.size());
        const auto entry = entryFrom(rest.substr(0, end));
        if (!entry) {
            return fail(Error::Kind::Damaged, (clipsFolder / sumsFile).string() + " line " +
                                                  std::to_string(line) +
                                                  ": this is no checksum and name of a clip.");
        }
        sums[entry->first] = entry->second;
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return sums;
}

Outcome<void> recordClipSum(const std::filesystem::path& clip, FileSystem& files)
{
    const auto folder = folderOf(clip);
    ASSIGN_OR_RETURN(auto sums, readClipSums(folder, files));
    ASSIGN_OR_RETURN(sums[clip.filename().string()], sha256OfFile(clip, files));
    std::string text;
    for (const auto& [name, sum] : sums) {
        text += lineOf(name, sum);
    }
    return replaceRecord(folder / sumsFile, text, files);
}

} // namespace latemile
