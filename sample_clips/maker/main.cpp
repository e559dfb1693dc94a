// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/render_clip.hpp"
#include "sample_clips/maker/truth_files.hpp"

#include <CLI/CLI.hpp>

#include <unistd.h>

#include <iostream>
#include <map>

namespace {
using namespace latemile::maker;

struct Wishes {
    ClipRecipe recipe;
    std::string file;
    MarkFrames marks = MarkFrames::All;
    bool bare = false; ///< the clip alone, no files beside it
};

template <class Value>
CLI::CheckedTransformer oneOf(std::map<std::string, Value> words)
{
    return CLI::CheckedTransformer(std::move(words), CLI::ignore_case);
}

void describeRunner(CLI::App& app, RunnerRecipe& runner)
{
    app.add_option("--seed", runner.seed, "What everything random hangs on")->capture_default_str();
    app.add_option("--speed", runner.speed, "Belt or ground speed, m/s")->capture_default_str();
    app.add_option("--step-rate", runner.stepRate, "Steps a minute")->capture_default_str();
    app.add_option("--stature", runner.stature, "The runner's height, cm")->capture_default_str();
    app.add_option("--landing", runner.landing, "rearfoot, midfoot or forefoot")
        ->transform(oneOf<Landing>({{"rearfoot", Landing::Rearfoot},
                                    {"midfoot", Landing::Midfoot},
                                    {"forefoot", Landing::Forefoot}}));
    app.add_option("--fatigue", runner.fatigue, "0 fresh to 1 late in a hard run")
        ->check(CLI::Range(0.0, 1.0));
    app.add_option("--variability", runner.variability, "Step-to-step spread; 0 repeats one step")
        ->check(CLI::Range(0.0, 2.0));
    app.add_flag("--planar", runner.planar, "All landmarks in one plane");
    app.add_flag("--overground", runner.overground, "The runner passes a still camera");
}

void describeCamera(CLI::App& app, CameraRecipe& camera)
{
    app.add_option("--view", camera.view, "left-side, right-side or rear")
        ->transform(oneOf<View>({{"left-side", View::LeftSide},
                                 {"right-side", View::RightSide},
                                 {"rear", View::Rear}}));
    app.add_option("--width", camera.width, "Pixels, even")->capture_default_str();
    app.add_option("--height", camera.height, "Pixels, even")->capture_default_str();
    app.add_option("--distance", camera.distance, "Camera to runner, cm")->capture_default_str();
    app.add_option("--lens-height", camera.lensHeight, "Camera above the belt, cm");
    app.add_option("--focal", camera.focal, "Focal length, pixels");
    app.add_option("--roll", camera.roll, "Camera roll, degrees")->check(CLI::Range(-45.0, 45.0));
    app.add_option("--k1", camera.lens.k1, "Lens, radial");
    app.add_option("--k2", camera.lens.k2, "Lens, radial");
    app.add_option("--k3", camera.lens.k3, "Lens, radial");
    app.add_option("--p1", camera.lens.p1, "Lens, tangential");
    app.add_option("--p2", camera.lens.p2, "Lens, tangential");
}

void describePicture(CLI::App& app, PictureRecipe& picture)
{
    app.add_option("--noise", picture.noise, "Sensor noise, grey levels")
        ->check(CLI::Range(0., 40.));
    app.add_option("--exposure", picture.exposure, "Seconds; smears what moves")
        ->check(CLI::Range(0.0, 0.05));
    app.add_option("--lighting-change", picture.lightingChange, "Share of light lost half-way")
        ->check(CLI::Range(0.0, 0.8));
    app.add_flag("--handrail", picture.handrail, "A near handrail hides part of the runner");
    app.add_option("--loose-cloth", picture.looseCloth, "Shirt and shorts slide by so much, cm")
        ->check(CLI::Range(0.0, 5.0));
}

void describeVideo(CLI::App& app, VideoRecipe& video)
{
    app.add_option("--codec", video.codec, "h264, hevc, mpeg4, mjpeg, vp9 or av1")
        ->transform(oneOf<Codec>({{"h264", Codec::H264},
                                  {"hevc", Codec::Hevc},
                                  {"mpeg4", Codec::Mpeg4},
                                  {"mjpeg", Codec::Mjpeg},
                                  {"vp9", Codec::Vp9},
                                  {"av1", Codec::Av1}}));
    app.add_option("--rate", video.captureRate, "Frames per real second")->capture_default_str();
    app.add_option("--container-rate", video.containerRate,
                   "Frames per second of the file; lower is slow motion");
    app.add_flag("--capture-tag", video.captureRateTag, "Tell the capture rate in the metadata");
    app.add_flag("--variable-rate", video.variableRate, "Uneven frame times, some frames missing");
    app.add_option("--duration", video.duration, "Real seconds")->capture_default_str();
    app.add_option("--kilobits", video.kilobits, "Bit rate, for a poor picture");
    app.add_option("--key-interval", video.keyInterval, "Frames between key frames, at most")
        ->check(CLI::Range(1, 1000));
}

int make(const Wishes& wishes)
{
    const bool shown = isatty(STDERR_FILENO) != 0;
    const auto truth = renderClip(wishes.recipe, wishes.file, [shown](auto done, auto all) {
        if (shown) {
            std::cerr << "\rframe " << done << " of " << all << (done == all ? "\n" : "");
        }
    });
    auto written = truth ? latemile::Outcome<void>{} : tl::unexpected(truth.error());
    if (truth && !wishes.bare) {
        written = writeBeside(*truth, wishes.file, wishes.marks);
    }
    if (!written) {
        std::cerr << written.error().sentence << "\n";
        if (!written.error().detail.empty()) {
            std::cerr << "(" << written.error().detail << ")\n";
        }
        return 1;
    }
    return 0;
}
} // namespace

int main(int argc, char* argv[])
{
    CLI::App app("Makes a clip of a modelled runner, with everything about it exactly known.");
    Wishes wishes;
    app.add_option("clip", wishes.file, "File to write: .mp4, .mov, .mkv, .webm or .avi")
        ->required();
    describeRunner(app, wishes.recipe.runner);
    describeCamera(app, wishes.recipe.camera);
    describePicture(app, wishes.recipe.picture);
    describeVideo(app, wishes.recipe.video);
    app.add_option("--marks", wishes.marks, "all frames, or instants only")
        ->transform(
            oneOf<MarkFrames>({{"all", MarkFrames::All}, {"instants", MarkFrames::Instants}}));
    app.add_flag("--bare", wishes.bare, "The clip alone, without truth and exchange files");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : 2;
    }
    return make(wishes);
}
