// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/inspection.hpp"

#include "core/clip/numbers_in_words.hpp"

#include <cmath>

namespace latemile {

namespace {

using nlohmann::json;

/// Names of files and codecs come from outside and need not be UTF-8.
std::string asUtf8(const std::string& text)
{
    const auto quoted = json(text).dump(-1, ' ', false, json::error_handler_t::replace);
    return json::parse(quoted).get<std::string>();
}

/// Twelve significant figures: enough for any frame, and free of the last bits' noise.
double tidy(double number)
{
    if (number == 0 || !std::isfinite(number)) {
        return 0;
    }
    const double scale = std::pow(10, 11 - std::floor(std::log10(std::abs(number))));
    return std::round(number * scale) / scale;
}

std::string pictureLine(const ClipFacts& facts)
{
    std::string line = std::to_string(facts.width) + " x " + std::to_string(facts.height);
    if (facts.width != facts.storedWidth || facts.height != facts.storedHeight ||
        facts.rotationDegrees != 0 || facts.mirrored) {
        line += " (stored " + std::to_string(facts.storedWidth) + " x " +
                std::to_string(facts.storedHeight);
        line += facts.rotationDegrees != 0
                    ? ", turned " + std::to_string(facts.rotationDegrees) + " degrees clockwise"
                    : "";
        line += facts.mirrored ? ", mirrored" : "";
        line += facts.pixelAspect != 1 ? ", pixel aspect " + inWords(facts.pixelAspect) : "";
        line += ")";
    }
    return line;
}

std::string rateLine(const ClipFacts& facts)
{
    std::string line = inWords(facts.captureRate) + " frames/s (from " + facts.captureRateFrom +
                       (facts.variableRate ? ", varying)" : ")");
    if (facts.slowMotion != 1) {
        line += ", played at " + inWords(facts.containerRate) +
                " frames/s: " + inWords(facts.slowMotion) + " times slow motion";
    }
    return line;
}

} // namespace

json inspectionJson(const std::filesystem::path& file, const ClipFacts& facts)
{
    auto remarks = json::array();
    for (const auto& remark : facts.remarks) {
        remarks.push_back(asUtf8(remark));
    }
    return {{"version", 1},
            {"file", asUtf8(file.filename().string())},
            {"container", asUtf8(facts.container)},
            {"codec", asUtf8(facts.codec)},
            {"pixel_format", asUtf8(facts.pixelFormat)},
            {"width", facts.width},
            {"height", facts.height},
            {"stored_width", facts.storedWidth},
            {"stored_height", facts.storedHeight},
            {"rotation_deg", facts.rotationDegrees},
            {"mirrored", facts.mirrored},
            {"pixel_aspect", tidy(facts.pixelAspect)},
            {"colour", asUtf8(facts.colour)},
            {"high_dynamic_range", facts.highDynamicRange},
            {"interlaced", facts.interlaced},
            {"frames", facts.frames},
            {"container_fps", tidy(facts.containerRate)},
            {"capture_fps", tidy(facts.captureRate)},
            {"capture_fps_from", asUtf8(facts.captureRateFrom)},
            {"slow_motion", tidy(facts.slowMotion)},
            {"variable_rate", facts.variableRate},
            {"longest_gap_s", tidy(facts.longestGap)},
            {"duration_s", tidy(facts.duration.count())},
            {"remarks", remarks}};
}

std::string inspectionText(const std::filesystem::path& file, const ClipFacts& facts)
{
    std::string text;
    const auto line = [&text](const char* name, const std::string& value) {
        text += std::string(name) + std::string(13 - std::char_traits<char>::length(name), ' ') +
                value + "\n";
    };
    line("File", asUtf8(file.filename().string()));
    line("Container", facts.container + ", " + facts.codec + ", " + facts.pixelFormat);
    line("Picture", pictureLine(facts));
    line("Colour", facts.colour);
    line("Frames", std::to_string(facts.frames));
    line("Rate", rateLine(facts));
    line("Duration", inWords(facts.duration.count()) + " s real time");
    line("Longest gap", inWords(facts.longestGap * 1000) + " ms");
    for (const auto& remark : facts.remarks) {
        line("Remark", asUtf8(remark));
    }
    return text;
}

} // namespace latemile
