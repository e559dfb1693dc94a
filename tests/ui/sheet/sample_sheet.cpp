// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/sheet/sample_sheet.hpp"

#include "core/sheet/sheet_rows.hpp"
#include "core/sheet/still_crop.hpp"
#include "core/sheet/still_drawing.hpp"
#include "tests/project_folders.hpp"

#include <array>

namespace latemile {
namespace {

constexpr std::array shown{Landmark::Ear,   Landmark::Shoulder, Landmark::Hip, Landmark::Knee,
                           Landmark::Ankle, Landmark::Heel,     Landmark::Toe};

/// One frame of the invented runner, the landmarks of `shown`.
struct Pose {
    bool fatigued{};
    Instant instant{};
    std::int64_t frame{};
    std::array<PixelPoint, shown.size()> at;
};

const std::array poses{
    Pose{false,
         Instant::Contact,
         258,
         {{{615, 169}, {651, 227}, {657, 372}, {608, 479}, {610, 606}, {621, 629}, {552, 620}}}},
    Pose{true,
         Instant::Contact,
         331,
         {{{599, 179}, {642, 229}, {656, 372}, {610, 480}, {590, 606}, {600, 630}, {532, 618}}}},
    Pose{false,
         Instant::MidStance,
         273,
         {{{622, 185}, {649, 247}, {658, 387}, {633, 502}, {706, 605}, {722, 625}, {653, 631}}}},
    Pose{true,
         Instant::MidStance,
         349,
         {{{602, 196}, {636, 252}, {657, 387}, {631, 503}, {706, 605}, {722, 624}, {653, 632}}}}};

Scene scene()
{
    Scene made;
    made.view = View::LeftSide;
    made.travel = Travel::Left;
    made.scale = ScaleLine{{997, 23}, {998, 625}, 200.0};
    made.plumb = PlumbLine{{997, 23}, {998, 625}};
    made.beltSpeed = 2.7;
    return made;
}

Marking markingOf(const Pose& pose)
{
    Marking marking;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        marking.marks[{FrameNumber{pose.frame}, BodySide::Near, shown[i]}] = {
            pose.at[i], Origin::Placed, std::nullopt};
    }
    return marking;
}

ComparisonRow row(const char* measure, std::array<double, 2> means, double halfWidth,
                  Verdict verdict, const char* sentence, const char* reason = "")
{
    ComparisonRow made;
    made.measure = measure;
    made.fresh = {8, means[0], 1.0};
    made.fatigued = {8, means[1], 1.0};
    made.change = means[1] - means[0];
    made.halfWidth = halfWidth;
    made.verdict = verdict;
    made.sentence = sentence;
    made.reason = reason;
    return made;
}

std::vector<ComparisonRow> rows()
{
    return {row("head_forward", {7.31, 10.62}, 1.24, Verdict::ClearChange,
                "The head is carried 3.3 cm further ahead of the shoulder."),
            row("trunk_lean", {7.41, 8.32}, 1.83, Verdict::WithinError,
                "No change beyond error in the lean of the trunk."),
            row("hips_behind", {-14.6, -14.1}, 1.71, Verdict::WithinError,
                "No change beyond error in where the hips are over the standing foot."),
            row("foot_ahead", {17.47, 21.93}, 1.32, Verdict::ClearChange,
                "The foot lands 4.5 cm further ahead of the hip."),
            row("knee_flex_contact", {20.4, 16.2}, 2.6, Verdict::ClearChange,
                "The knee is 4.2\u00b0 straighter at contact."),
            row("contact_time", {259.2, 294.1}, 6.4, Verdict::NotComparable,
                "Not comparable: the time on the ground.",
                "The belt ran at 2.70 m/s and at 2.80 m/s; timings need speeds within 2 %.")};
}

void addMeasured(Still& still, const Pose& pose, const Plane& plane,
                 const std::vector<ComparisonRow>& compared)
{
    for (std::size_t i = 0; i < compared.size(); ++i) {
        const Measure* measure = findMeasure(compared[i].measure);
        if (!measure || measure->instant != pose.instant) {
            continue;
        }
        if (auto drawn = drawingOf(*measure, markingOf(pose), still.frame, plane)) {
            drawn->letter = letterOf(i);
            drawn->value = pose.fatigued ? compared[i].fatigued.mean : compared[i].fresh.mean;
            drawn->se = 0.6;
            still.measured.push_back(*drawn);
        }
    }
}

Still stillOf(const Pose& pose, const Plane& plane, const std::vector<ComparisonRow>& compared)
{
    Still still;
    still.fatigued = pose.fatigued;
    still.instant = pose.instant;
    still.clip = pose.fatigued ? "late.mp4" : "fresh.mp4";
    still.frame = FrameNumber{pose.frame};
    still.landmarks = nearLandmarks(markingOf(pose), still.frame);
    still.segments = nearSegments(markingOf(pose), still.frame);
    addMeasured(still, pose, plane, compared);
    return still;
}

} // namespace

SheetContent sampleSheet()
{
    const Plane plane = *Plane::from(scene());
    SheetContent content;
    content.athlete = "Ines Okafor";
    content.date = dateWords("2026-08-29");
    content.coach = "Marit Hallgren";
    content.freshMinute = minuteWords(6.0);
    content.fatiguedMinute = minuteWords(58.0);
    content.freshSpeed = content.fatiguedSpeed = 2.7;
    content.compared = rows();
    std::vector<CropInput> crops;
    for (const Pose& pose : poses) {
        content.stills.push_back(stillOf(pose, plane, content.compared));
    }
    for (std::size_t i = 0; i < poses.size(); ++i) {
        crops.push_back({&content.stills[i], poses[i].at[2], plane.cmPerPixel(poses[i].at[2])});
    }
    cropAlike(crops);
    for (std::size_t i = 0; i < poses.size(); ++i) {
        Still& still = content.stills[i];
        still.plumb = plumbThrough(poses[i].at[2], still.cropFrom.v, still.cropTo.v, plane);
    }
    const auto cues = *readCues(tests::sourceFolder() / "resources/cues.json");
    for (const FittingCue& fitting : fittingCues({content.compared}, cues)) {
        const Cue& cue = *fitting.cue;
        content.cues.push_back({cue.think, cue.why, cue.drill, cue.caution,
                                reasonFor(cue, {content.compared})->measure});
    }
    content.cautions = usualCautions();
    content.errorWords = errorWords();
    content.confirmed = "The coach confirmed 96 of 96 marked instants.";
    return toldIn(std::move(content), Lengths::Centimetres);
}

SheetContent crowdedSheet()
{
    SheetContent content = sampleSheet();
    content.athlete = "Maximiliane-Katharina von und zu Hohenfels-Abernathy of Upper "
                      "Strathkinness and the Far Isles";
    content.coach = "Professor Wilhelmina Featherstonehaugh-Cholmondeley, with the whole of "
                    "her long-distance group";
    content.fatiguedSpeed = 2.8;
    content.note.clear();
    for (int i = 0; i < 12; ++i) {
        content.note += "Remember how the last hill felt: the shoulders first, then the hips, "
                        "then the feet. We shall look at it again. ";
    }
    for (CueText& cue : content.cues) {
        cue.think += ", and then once more from the beginning of the last hour";
        cue.because += ' ' + cue.because;
        cue.drill += ' ' + cue.drill + ' ' + cue.drill;
        cue.caution += ' ' + cue.caution;
    }
    return toldIn(std::move(content), Lengths::Centimetres);
}

ui::StillPictures greyPictures()
{
    ui::StillPictures pictures;
    for (int i = 0; i < 4; ++i) {
        QImage image(1280, 720, QImage::Format_RGB32);
        image.fill(QColor(100 + 20 * i, 110, 120));
        pictures.images.push_back(image);
    }
    return pictures;
}

} // namespace latemile
