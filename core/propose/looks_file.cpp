// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/looks_file.hpp"

#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/propose/network_file.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace latemile {

namespace {

constexpr std::int64_t fileVersion = 1;
constexpr const char* looksEnding = ".looks";
constexpr std::size_t cropNumbers = 4;  ///< centre, size, angle
constexpr std::size_t pointNumbers = 3; ///< place, peak
constexpr std::size_t headNumbers = 2;  ///< frame, presence

nlohmann::json none()
{
    return nlohmann::json::array();
}

double tenThousandths(double value)
{
    return std::round(value * 10000.0) / 10000.0;
}

nlohmann::json numbersOf(const Crop& crop)
{
    return {crop.centre.u, crop.centre.v, crop.size, crop.angle};
}

Crop cropFrom(const std::vector<double>& numbers, std::size_t at)
{
    return {{numbers[at], numbers[at + 1]}, numbers[at + 2], numbers[at + 3]};
}

/// One row a frame: frame, presence, next crop, then each point.
nlohmann::json rowOf(const FoundBody& found)
{
    nlohmann::json row{found.frame.value, found.body.presence};
    for (const auto& number : numbersOf(found.body.nextCrop)) {
        row.push_back(number);
    }
    for (const BodyPoint& point : found.body.points) {
        row.push_back(tenThousandths(point.at.u));
        row.push_back(tenThousandths(point.at.v));
        row.push_back(tenThousandths(point.peak));
    }
    return row;
}

Outcome<FrameNumber> frameFrom(const JsonField& field, const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto number, field.integer(0, index.size() - 1));
    return FrameNumber{number};
}

Outcome<FoundBody> bodyFrom(const JsonField& row, const FrameIndex& index)
{
    constexpr std::size_t all =
        headNumbers + cropNumbers + pointNumbers * std::size_t{NetworkAnswer::points};
    ASSIGN_OR_RETURN(const auto numbers, row.numbers(all));
    ASSIGN_OR_RETURN(const auto items, row.items());
    FoundBody found;
    ASSIGN_OR_RETURN(found.frame, frameFrom(items.front(), index));
    found.time = index.time(found.frame);
    found.body.presence = numbers[1];
    found.body.nextCrop = cropFrom(numbers, headNumbers);
    for (std::size_t i = 0; i < found.body.points.size(); ++i) {
        const std::size_t at = headNumbers + cropNumbers + pointNumbers * i;
        found.body.points[i] = {{numbers[at], numbers[at + 1]}, numbers[at + 2]};
    }
    return found;
}

/// Frames, not times: these follow the capture rate.
nlohmann::json pathOf(const CropPath& path, const FrameIndex& index)
{
    auto rows = nlohmann::json::array();
    for (const auto& known : path.known()) {
        auto row = numbersOf(known.crop);
        row.insert(row.begin(), index.nearest(known.time).value);
        rows.push_back(std::move(row));
    }
    return rows;
}

Outcome<CropPath> pathFrom(const JsonField& rows, const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto items, rows.items());
    std::vector<CropPath::Known> known;
    for (const auto& row : items) {
        ASSIGN_OR_RETURN(const auto numbers, row.numbers(1 + cropNumbers));
        ASSIGN_OR_RETURN(const auto parts, row.items());
        ASSIGN_OR_RETURN(const auto frame, frameFrom(parts.front(), index));
        const auto time = index.time(frame);
        if (!known.empty() && !(known.back().time < time)) {
            return row.fault("the path goes back in time");
        }
        known.push_back({time, cropFrom(numbers, 1)});
    }
    if (known.empty()) {
        return rows.fault("the path is empty");
    }
    return CropPath(std::move(known));
}

Outcome<std::vector<FoundBody>> bodiesFrom(const JsonField& rows, const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto items, rows.items());
    std::vector<FoundBody> bodies;
    for (const auto& row : items) {
        ASSIGN_OR_RETURN(auto body, bodyFrom(row, index));
        if (!bodies.empty() && !(bodies.back().frame < body.frame)) {
            return row.fault("the frames are not in order");
        }
        bodies.push_back(std::move(body));
    }
    return bodies;
}

Outcome<RunnerBox> boxFrom(const JsonField& field, const FrameIndex& index)
{
    ASSIGN_OR_RETURN(const auto at, field.member("frame"));
    ASSIGN_OR_RETURN(const auto frame, frameFrom(at, index));
    ASSIGN_OR_RETURN(const auto corners, field.member("px"));
    ASSIGN_OR_RETURN(const auto px, corners.numbers(4));
    return RunnerBox{frame, {px[0], px[1], px[2], px[3]}};
}

/// Of a clip that is not there none.
std::int64_t bytesOf(const std::filesystem::path& clip)
{
    std::error_code fault;
    const auto size = std::filesystem::file_size(clip, fault);
    return fault ? 0 : static_cast<std::int64_t>(size);
}

Outcome<ClipLooks> looksFrom(const JsonField& document, const FrameIndex& index,
                             const std::filesystem::path& clip)
{
    RETURN_IF_ERROR(needVersion(document, fileVersion));
    ASSIGN_OR_RETURN(const auto network, document.text("network_sha256"));
    ASSIGN_OR_RETURN(const auto frames, document.member("frames"));
    ASSIGN_OR_RETURN(const auto count, frames.integer(0, 1'000'000'000));
    ASSIGN_OR_RETURN(const auto size, document.member("clip_bytes"));
    ASSIGN_OR_RETURN(const auto bytes, size.integer(0, std::int64_t{1} << 50));
    if (network != poseNetworkSha256 || count != index.size() || bytes != bytesOf(clip)) {
        return document.fault("it is of another clip or network");
    }
    ClipLooks looks;
    ASSIGN_OR_RETURN(const auto found, document.member("found"));
    ASSIGN_OR_RETURN(looks.found, bodiesFrom(found, index));
    ASSIGN_OR_RETURN(const auto path, document.maybe("path"));
    if (path) {
        ASSIGN_OR_RETURN(looks.path, pathFrom(*path, index));
    }
    ASSIGN_OR_RETURN(const auto box, document.maybe("box"));
    if (box) {
        ASSIGN_OR_RETURN(looks.box, boxFrom(*box, index));
    }
    ASSIGN_OR_RETURN(const auto turns, document.member("leg_turns"));
    ASSIGN_OR_RETURN(const auto items, turns.items());
    for (const auto& turn : items) {
        ASSIGN_OR_RETURN(const auto frame, frameFrom(turn, index));
        looks.turns.insert(frame);
    }
    RETURN_IF_ERROR(needSchema(document, "looks"));
    return looks;
}

} // namespace

std::filesystem::path looksFileOf(const std::filesystem::path& clip)
{
    return clip.string() + looksEnding;
}

Outcome<void> keepLooks(const ClipLooks& looks, const FrameIndex& index,
                        const std::filesystem::path& clip, FileSystem& files)
{
    nlohmann::json document{{"version", fileVersion}, {"network_sha256", poseNetworkSha256},
                            {"frames", index.size()}, {"clip_bytes", bytesOf(clip)},
                            {"found", none()},        {"leg_turns", none()}};
    for (const FoundBody& body : looks.found) {
        document["found"].push_back(rowOf(body));
    }
    for (const FrameNumber turn : looks.turns) {
        document["leg_turns"].push_back(turn.value);
    }
    if (looks.path) {
        document["path"] = pathOf(*looks.path, index);
    }
    if (looks.box) {
        const Box& box = looks.box->box;
        document["box"] = {{"frame", looks.box->frame.value},
                           {"px", {box.u, box.v, box.width, box.height}}};
    }
    return replaceRecord(looksFileOf(clip), document.dump() + "\n", files);
}

Outcome<void> forgetLegTurns(const std::filesystem::path& clipsFolder, FileSystem& files)
{
    const auto entries = files.list(clipsFolder);
    if (!entries) {
        return readFault(clipsFolder, entries.error());
    }
    Outcome<void> all;
    for (const auto& file : *entries) {
        if (file.extension() != looksEnding) {
            continue;
        }
        const auto text = readWholeFile(file, files);
        auto document = parseJson(text.value_or(""), file.string());
        // A damaged one is of no use to anybody: what was seen is then seen anew.
        if (!document || !document->is_object() || document->value("leg_turns", none()) == none()) {
            continue;
        }
        (*document)["leg_turns"] = none();
        auto written = replaceRecord(file, document->dump() + "\n", files);
        if (!written && all) {
            all = std::move(written); // the others are forgotten all the same
        }
    }
    return all;
}

std::optional<ClipLooks> looksOf(const FrameIndex& index, const std::filesystem::path& clip,
                                 FileSystem& files)
{
    const auto file = looksFileOf(clip);
    const auto text = readWholeFile(file, files);
    const auto parsed = text ? parseJson(*text, file.string()) : tl::unexpected(text.error());
    if (!parsed) {
        return std::nullopt;
    }
    auto looks = looksFrom(JsonField(*parsed, file.string()), index, clip);
    return looks ? std::optional(std::move(*looks)) : std::nullopt;
}

std::optional<ClipLooks> looksOf(const FrameIndex& index, const std::filesystem::path& clip,
                                 const std::vector<FrameNumber>& frames, FileSystem& files)
{
    auto kept = looksOf(index, clip, files);
    if (!kept) {
        return std::nullopt;
    }
    std::erase_if(kept->found, [&frames](const FoundBody& body) {
        return !std::ranges::binary_search(frames, body.frame);
    });
    return kept->found.size() == frames.size() ? kept : std::nullopt;
}

} // namespace latemile
