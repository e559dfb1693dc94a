// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/propose_truth.hpp"

#include "core/marks/marks_file.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <fstream>
#include <random>

namespace latemile::bench {

namespace {

nlohmann::json truthDocument(std::filesystem::path clip)
{
    std::ifstream text(clip.replace_extension(".truth.json"));
    return nlohmann::json::parse(text);
}

std::filesystem::path beside(std::filesystem::path clip, const std::string& ending)
{
    return clip.replace_extension(ending);
}

PixelPoint pointFrom(const nlohmann::json& pair)
{
    return {pair.at(0).get<double>(), pair.at(1).get<double>()};
}

Truth makersTruth(const std::filesystem::path& clip, const ClipReader& reader)
{
    const auto document = truthDocument(clip);
    Truth truth;
    truth.pixelsPerCm = document.at("scene").at("px_per_cm").get<double>();
    truth.nearFoot = *footNamed(document.at("runner").at("near_side").get<std::string>());
    for (const auto& [key, mark] : need(readMarks(beside(clip, ".MARKS.csv"), reader.index(),
                                                  reader.facts().width, reader.facts().height))) {
        truth.at[key] = mark.at;
    }
    truth.stances = need(readContacts(beside(clip, ".CONTACTS.csv"), reader.index()));
    truth.scene = need(readScene(beside(clip, ".SCENE.json")));
    return truth;
}

void addFrames(Truth& truth, const nlohmann::json& document)
{
    for (const auto& frame : document.at("frames")) {
        const FrameNumber number{frame.at("i").get<std::int64_t>()};
        for (const auto foot : {Foot::Left, Foot::Right}) {
            const auto side = foot == truth.nearFoot ? BodySide::Near : BodySide::Far;
            const auto& points = frame.at(foot == Foot::Left ? "L" : "R");
            for (std::size_t i = 0; i < points.size(); ++i) {
                const auto name = document.at("landmark_order").at(i).get<std::string>();
                truth.at[{number, side, *landmarkNamed(name)}] = pointFrom(points.at(i));
            }
        }
    }
}

Truth athletesTruth(const std::filesystem::path& clip)
{
    const auto document = truthDocument(clip);
    Truth truth;
    const auto& scale = document.at("scale");
    truth.pixelsPerCm = scale.at("px_per_cm_near_hip").get<double>();
    truth.nearFoot = *footNamed(document.at("near_side").get<std::string>());
    addFrames(truth, document);
    for (const auto& contact : document.at("contacts")) {
        Stance stance;
        stance.foot = *footNamed(contact.at("side").get<std::string>());
        stance.contact = Seconds(contact.at("contact_s").get<double>());
        stance.toeOff = Seconds(contact.at("toe_off_s").get<double>());
        truth.stances.push_back(stance);
    }
    const auto foot = pointFrom(scale.at("pole_0cm_px"));
    const auto head = pointFrom(scale.at("pole_200cm_px"));
    truth.scene.scale = ScaleLine{foot, head, 200.0};
    truth.scene.plumb = PlumbLine{head, foot};
    truth.scene.beltSpeed = document.at("speed_m_s").get<double>();
    return truth;
}

FrameNumber nearestFrame(const BodyPaths& paths, Seconds time)
{
    const auto nearest = std::ranges::min_element(
        paths.times, {}, [time](Seconds one) { return std::chrono::abs(one - time); });
    return paths.frames[static_cast<std::size_t>(nearest - paths.times.begin())];
}

/// Contact, mid-stance, toe-off and mid-swing of the first near stride that lies whole in the clip.
std::vector<Seconds> firstStride(const Truth& truth, const BodyPaths& paths)
{
    auto near = truth.stances;
    std::erase_if(near, [&](const Stance& stance) { return stance.foot != truth.nearFoot; });
    for (std::size_t k = 0; k + 1 < near.size(); ++k) {
        const auto& [foot, contact, toeOff, origin, se] = near[k];
        if (contact >= paths.times.front() + Seconds{0.02} && toeOff) {
            return {contact + Seconds{0.004}, (contact + *toeOff) / 2, *toeOff + Seconds{0.004},
                    (*toeOff + near[k + 1].contact) / 2};
        }
    }
    return {};
}

} // namespace

Truth truthOf(const std::filesystem::path& clip, const ClipReader& reader)
{
    return std::filesystem::exists(beside(clip, ".MARKS.csv")) ? makersTruth(clip, reader)
                                                               : athletesTruth(clip);
}

std::map<MarkKey, Mark> oneStep(const Truth& truth, const BodyPaths& paths, double noise,
                                unsigned seed)
{
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    std::map<MarkKey, Mark> marks;
    for (const auto time : firstStride(truth, paths)) {
        for (const auto landmark : sideViewLandmarks) {
            const MarkKey key{nearestFrame(paths, time), BodySide::Near, landmark};
            if (const auto at = truth.at.find(key); at != truth.at.end()) {
                const double se = defaultClickError(landmark) * truth.pixelsPerCm * noise;
                const double u = se * normal(random);
                const double v = se * normal(random);
                marks[key] = {.at = {at->second.u + u, at->second.v + v},
                              .origin = Origin::Placed,
                              .sePx = {}};
            }
        }
    }
    return marks;
}

} // namespace latemile::bench
