// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/library/sample_truth.hpp"

#include "core/json_file.hpp"

#include <nlohmann/json.hpp>

namespace latemile {

namespace {

using nlohmann::json;

PixelPoint pointOf(const json& value)
{
    return {value.at(0).get<double>(), value.at(1).get<double>()};
}

std::map<Landmark, PixelPoint> pointsOf(const json& order, const json& values)
{
    std::map<Landmark, PixelPoint> points;
    for (std::size_t i = 0; i < order.size(); ++i) {
        points[landmarkNamed(order[i].get<std::string>()).value()] = pointOf(values.at(i));
    }
    return points;
}

std::optional<PixelPoint> maybePoint(const json& parent, const char* key)
{
    return parent.contains(key) && !parent.at(key).is_null()
               ? std::optional(pointOf(parent.at(key)))
               : std::nullopt;
}

std::optional<FrameNumber> maybeFrame(const json& parent, const char* key)
{
    return parent.contains(key) && !parent.at(key).is_null()
               ? std::optional(FrameNumber{parent.at(key).get<std::int64_t>()})
               : std::nullopt;
}

SampleTruth::ContactTruth contactOf(const json& value)
{
    SampleTruth::ContactTruth contact{.foot =
                                          footNamed(value.at("side").get<std::string>()).value(),
                                      .contact = value.at("contact_s").get<double>(),
                                      .toeOff = value.at("toe_off_s").get<double>(),
                                      .firstOn = maybeFrame(value, "first_frame_of_contact"),
                                      .firstClear = maybeFrame(value, "first_frame_after_toe_off"),
                                      .footAheadCm = {},
                                      .shankDegrees = {},
                                      .kneeDegrees = {},
                                      .trunkDegrees = {},
                                      .headForwardCm = {}};
    if (value.contains("image_at_first_frame") && !value.at("image_at_first_frame").is_null()) {
        const auto& image = value.at("image_at_first_frame");
        contact.footAheadCm = image.at("foot_ahead_of_hip_cm").get<double>();
        contact.shankDegrees = image.at("shank_angle_deg").get<double>();
        contact.kneeDegrees = image.at("knee_flexion_deg").get<double>();
        contact.trunkDegrees = image.at("trunk_lean_deg").get<double>();
        contact.headForwardCm = image.at("head_forward_cm").get<double>();
    }
    return contact;
}

SampleTruth truthOf(const json& document)
{
    const auto& scale = document.at("scale");
    SampleTruth truth;
    truth.view = document.at("view") == "side" ? View::LeftSide : View::Rear;
    truth.fresh = document.at("condition") == "fresh";
    truth.speed = document.at("speed_m_s").get<double>();
    truth.tiltDegrees = document.at("camera").at("image_tilt_deg").get<double>();
    truth.pxPerCmAtNearHip = scale.at("px_per_cm_near_hip").get<double>();
    truth.poleBottom = maybePoint(scale, "pole_0cm_px");
    truth.poleTop = maybePoint(scale, "pole_200cm_px");
    const auto& order = document.at("landmark_order");
    for (const auto& frame : document.at("frames")) {
        truth.frames.push_back({Seconds{frame.at("t").get<double>()},
                                pointsOf(order, frame.at("L")), pointsOf(order, frame.at("jR")),
                                maybePoint(frame, "iliac_L"), maybePoint(frame, "iliac_R")});
    }
    for (const auto& contact : document.at("contacts")) {
        truth.contacts.push_back(contactOf(contact));
    }
    return truth;
}

} // namespace

Outcome<SampleTruth> readSampleTruth(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    try {
        return truthOf(document);
    } catch (const std::exception& fault) {
        return fail(Error::Kind::Damaged,
                    "'" + file.string() + "' is not the truth of a sample clip.", fault.what());
    }
}

} // namespace latemile
