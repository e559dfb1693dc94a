// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/c3d.hpp"

#include "core/decimal_text.hpp"
#include "core/exchange/c3d_parameters.hpp"
#include "core/exchange/marked_points.hpp"
#include "core/exchange/plane_marks.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace latemile {

namespace {

constexpr double millimetresPerCentimetre = 10.0;
/// Negative: data are floating-point numbers. Its size is the unit of the residuals, mm.
constexpr double scaleFactor = -0.1;
constexpr std::int64_t greatestFrame = 65535;
constexpr std::size_t greatestCount = 255; ///< of a dimension of a parameter

struct Event {
    Foot foot{};
    std::string label;
    Seconds at{};
};

std::vector<Event> eventsOf(const std::vector<Stance>& stances)
{
    std::vector<Event> events;
    for (const auto& stance : stances) {
        events.push_back({stance.foot, "Contact", stance.contact});
        if (stance.toeOff) {
            events.push_back({stance.foot, "Toe-off", *stance.toeOff});
        }
    }
    std::ranges::stable_sort(events, {}, &Event::at);
    return events;
}

/// All that the sections of the file need to know.
struct Content {
    const PreparedClip& clip;
    std::vector<MarkedPoint> points;
    MarkedStretch stretch;
    std::vector<Event> events;
    double rate{};

    [[nodiscard]] std::int64_t firstFrame() const { return stretch.first.value + 1; }
    [[nodiscard]] std::int64_t lastFrame() const { return stretch.last.value + 1; }
    [[nodiscard]] std::int64_t frames() const { return lastFrame() - firstFrame() + 1; }
};

/// Frames of unlike length would come back at wrong times without a word.
std::optional<std::string> unevenness(const PreparedClip& clip, const MarkedStretch& stretch)
{
    constexpr double allowed = 0.02;
    for (auto frame = stretch.first; frame < stretch.last; ++frame.value) {
        const auto interval = clip.index.time({frame.value + 1}) - clip.index.time(frame);
        if (std::abs(interval / clip.frameInterval - 1.0) > allowed) {
            return "frames " + std::to_string(frame.value) + " and " +
                   std::to_string(frame.value + 1) + " are " +
                   decimalText(1000.0 * interval.count(), 1) + " ms apart and most others " +
                   decimalText(1000.0 * clip.frameInterval.count(), 1) + " ms";
        }
    }
    return std::nullopt;
}

Outcome<void> needsFit(const Content& content)
{
    const auto refuse = [&content](const std::string& why) {
        return fail(Error::Kind::Unsupported, "The clip " + content.clip.conditions.file +
                                                  " does not fit a C3D file: " + why +
                                                  ". Take the TRC table instead.");
    };
    if (const auto uneven = unevenness(content.clip, content.stretch)) {
        return refuse(*uneven + ", but C3D knows one rate for all");
    }
    if (content.lastFrame() > greatestFrame) {
        return refuse("its marks reach frame " + std::to_string(content.stretch.last.value) +
                      " and C3D counts to " + std::to_string(greatestFrame));
    }
    if (content.events.size() > greatestCount) {
        return refuse("it has " + std::to_string(content.events.size()) +
                      " contacts and toe-offs and C3D holds " + std::to_string(greatestCount));
    }
    return {};
}

void addPointGroup(C3dParameters& parameters, const Content& content, std::int64_t dataStart)
{
    std::vector<std::string> labels;
    for (const auto& point : content.points) {
        labels.push_back(nameOf(point));
    }
    parameters.group("POINT");
    parameters.int16("USED", std::ssize(labels));
    parameters.float32("SCALE", scaleFactor);
    parameters.float32("RATE", content.rate);
    parameters.int16("DATA_START", dataStart);
    parameters.int16("FRAMES", content.frames());
    parameters.texts("LABELS", labels);
    parameters.texts("DESCRIPTIONS", labels);
    parameters.text("UNITS", "mm");
    parameters.text("X_SCREEN", "+X");
    parameters.text("Y_SCREEN", "+Z");
}

void addEventGroup(C3dParameters& parameters, const std::vector<Event>& events)
{
    std::vector<std::string> contexts;
    std::vector<std::string> labels;
    std::vector<double> times; // minutes and seconds
    for (const auto& event : events) {
        contexts.emplace_back(event.foot == Foot::Left ? "Left" : "Right");
        labels.push_back(event.label);
        const double minutes = std::floor(event.at.count() / 60.0);
        times.push_back(minutes);
        times.push_back(event.at.count() - 60.0 * minutes);
    }
    parameters.group("EVENT");
    parameters.int16("USED", std::ssize(events));
    if (!events.empty()) {
        parameters.texts("CONTEXTS", contexts);
        parameters.texts("LABELS", labels);
        parameters.float32Pairs("TIMES", times);
    }
}

C3dParameters parametersOf(const Content& content, std::int64_t dataStart)
{
    C3dParameters parameters;
    addPointGroup(parameters, content, dataStart);
    parameters.group("ANALOG");
    parameters.int16("USED", 0);
    parameters.float32("GEN_SCALE", 1.0);
    parameters.float32("RATE", 0.0);
    parameters.group("TRIAL"); // 32-bit numbers as two words each
    parameters.int16s("ACTUAL_START_FIELD", {content.firstFrame(), 0});
    parameters.int16s("ACTUAL_END_FIELD", {content.lastFrame(), 0});
    parameters.float32("CAMERA_RATE", content.rate);
    addEventGroup(parameters, content.events);
    return parameters;
}

std::string headerOf(const Content& content, std::int64_t dataStart)
{
    std::string header = "\x02\x50"; // the parameters begin in block 2; key of the format
    addInt16(header, std::ssize(content.points));
    addInt16(header, 0); // no analogue measurements
    addInt16(header, content.firstFrame());
    addInt16(header, content.lastFrame());
    addInt16(header, 0); // longest gap that was filled: none is
    addFloat32(header, scaleFactor);
    addInt16(header, dataStart);
    addInt16(header, 0);
    addFloat32(header, content.rate);
    header.resize(c3dBlock, '\0');
    return header;
}

void addPoint(std::string& bytes, const MarkTracks::Point* point, const Plane& plane)
{
    if (point == nullptr) {
        for (const double value : {0.0, 0.0, 0.0, -1.0}) {
            addFloat32(bytes, value);
        }
        return;
    }
    const double error = millimetresPerCentimetre * point->sePx * plane.cmPerPixel(point->mark.at);
    addFloat32(bytes, millimetresPerCentimetre * point->plane.x);
    addFloat32(bytes, 0.0);
    addFloat32(bytes, millimetresPerCentimetre * point->plane.y);
    addFloat32(bytes, std::min(std::round(error / -scaleFactor), 255.0));
}

std::string dataOf(const Content& content)
{
    std::string bytes;
    for (auto frame = content.stretch.first; frame <= content.stretch.last; ++frame.value) {
        for (const auto& point : content.points) {
            addPoint(bytes, content.clip.tracks.find({frame, point.side, point.landmark}),
                     content.clip.plane);
        }
    }
    bytes.resize((bytes.size() + c3dBlock - 1) / c3dBlock * c3dBlock, '\0');
    return bytes;
}

} // namespace

Outcome<std::string> c3dBytes(const PreparedClip& clip, const Marking& marking)
{
    RETURN_IF_ERROR(needPlaneMarks(clip, marking));
    const Content content{.clip = clip,
                          .points = markedPoints(marking),
                          .stretch = markedStretch(marking),
                          .events = eventsOf(marking.stances),
                          .rate = 1.0 / clip.frameInterval.count()};
    RETURN_IF_ERROR(needsFit(content));
    // Where the data begin hangs on how long the parameters are, which does not hang on that
    // number.
    const std::int64_t dataStart = 2 + parametersOf(content, 0).blocks();
    return headerOf(content, dataStart) + parametersOf(content, dataStart).closed() +
           dataOf(content);
}

} // namespace latemile
