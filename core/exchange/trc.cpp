// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/trc.hpp"

#include "core/decimal_text.hpp"
#include "core/exchange/marked_points.hpp"
#include "core/exchange/plane_marks.hpp"

namespace latemile {

namespace {

constexpr double millimetresPerCentimetre = 10.0;

std::string header(const PreparedClip& clip, std::size_t points, const MarkedStretch& stretch,
                   const std::string& name)
{
    const auto rate = decimalText(1.0 / clip.frameInterval.count(), 2);
    const auto rows = std::to_string(stretch.last.value - stretch.first.value + 1);
    const auto first = std::to_string(stretch.first.value + 1);
    return "PathFileType\t4\t(X/Y/Z)\t" + name +
           "\n"
           "DataRate\tCameraRate\tNumFrames\tNumMarkers\tUnits\tOrigDataRate\tOrigDataStartFrame"
           "\tOrigNumFrames\n" +
           rate + "\t" + rate + "\t" + rows + "\t" + std::to_string(points) + "\tmm\t" + rate +
           "\t" + first + "\t" + rows + "\n";
}

std::string columns(const std::vector<MarkedPoint>& points)
{
    std::string names = "Frame#\tTime";
    std::string axes = "\t";
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto number = std::to_string(i + 1);
        names += "\t" + nameOf(points[i]) + "\t\t";
        axes += "\tX" + number + "\tY" + number + "\tZ" + number;
    }
    return names + "\n" + axes + "\n\n";
}

std::string cellsOf(const MarkTracks::Point* point)
{
    if (point == nullptr) {
        return "\t\t\t";
    }
    return "\t" + decimalText(millimetresPerCentimetre * point->plane.x, 3) + "\t" +
           decimalText(millimetresPerCentimetre * point->plane.y, 3) + "\t0.000";
}

} // namespace

Outcome<std::string> trcText(const PreparedClip& clip, const Marking& marking,
                             const std::string& name)
{
    RETURN_IF_ERROR(needPlaneMarks(clip, marking));
    const auto points = markedPoints(marking);
    const auto stretch = markedStretch(marking);
    auto text = header(clip, points.size(), stretch, name) + columns(points);
    for (auto frame = stretch.first; frame <= stretch.last; ++frame.value) {
        text +=
            std::to_string(frame.value + 1) + "\t" + decimalText(clip.index.time(frame).count(), 6);
        for (const auto& point : points) {
            text += cellsOf(clip.tracks.find({frame, point.side, point.landmark}));
        }
        text += "\n";
    }
    return text;
}

} // namespace latemile
