// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/bones.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace latemile {

namespace {

struct Bone {
    std::string_view name;
    Landmark upper{};
    Landmark lower{};
};

constexpr std::array bones{Bone{"thigh", Landmark::Hip, Landmark::Knee},
                           Bone{"shank", Landmark::Knee, Landmark::Ankle}};
constexpr std::size_t enoughFrames = 3;

struct Length {
    FrameNumber frame;
    double value{};
};

std::vector<Length> lengthsOf(const Bone& bone, const Marking& marking,
                              const std::function<PlanePoint(PixelPoint)>& toPlane)
{
    std::vector<Length> lengths;
    for (const auto& [key, mark] : marking.marks) {
        if (key.side != BodySide::Near || key.landmark != bone.upper) {
            continue;
        }
        if (const Mark* other = marking.find({key.frame, BodySide::Near, bone.lower})) {
            const PlanePoint a = toPlane(mark.at);
            const PlanePoint b = toPlane(other->at);
            lengths.push_back({key.frame, std::hypot(a.x - b.x, a.y - b.y)});
        }
    }
    return lengths;
}

double medianOf(std::vector<Length> lengths)
{
    const auto middle = lengths.begin() + std::ssize(lengths) / 2;
    std::ranges::nth_element(lengths, middle, {}, &Length::value);
    return middle->value;
}

OddBone oddBone(const Bone& bone, const Length& length, double percent)
{
    const std::string off = std::to_string(std::lround(std::abs(percent)));
    return {length.frame, bone.upper, bone.lower, percent,
            "The " + std::string(bone.name) + " is " + off + " % " +
                (percent > 0 ? "longer" : "shorter") +
                " here than in this clip's median: look at " + std::string(nameOf(bone.upper)) +
                " and " + std::string(nameOf(bone.lower)) + "."};
}

} // namespace

std::vector<OddBone> oddBones(const Marking& marking,
                              const std::function<PlanePoint(PixelPoint)>& toPlane)
{
    std::vector<OddBone> odd;
    for (const Bone& bone : bones) {
        const auto lengths = lengthsOf(bone, marking, toPlane);
        const double usual = lengths.size() < enoughFrames ? 0.0 : medianOf(lengths);
        for (const Length& length : lengths) {
            const double percent = usual > 0.0 ? 100.0 * (length.value / usual - 1.0) : 0.0;
            if (std::abs(percent) >= boneLimitPercent) {
                odd.push_back(oddBone(bone, length, percent));
            }
        }
    }
    std::ranges::stable_sort(odd, {}, &OddBone::frame);
    return odd;
}

} // namespace latemile
