// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/simulation/true_run.hpp"

#include "tests/simulation/true_values.hpp"

#include <cmath>
#include <numbers>

namespace latemile::simulation {

namespace {

constexpr double truthRate = 240.0;

latemile::View viewOf(maker::View view)
{
    switch (view) {
    case maker::View::LeftSide:
        return latemile::View::LeftSide;
    case maker::View::RightSide:
        return latemile::View::RightSide;
    case maker::View::Rear:
        break;
    }
    return latemile::View::Rear;
}

Scene drawnExactly(const maker::Truth& truth)
{
    Scene scene;
    scene.view = viewOf(truth.recipe.camera.view);
    scene.travel = scene.view == latemile::View::LeftSide ? Travel::Left : Travel::Right;
    scene.scale = ScaleLine{truth.scaleBottom, truth.scaleTop, truth.scaleLengthCm};
    scene.plumb = PlumbLine{truth.scaleTop, truth.scaleBottom};
    scene.groundV = truth.groundY;
    scene.beltSpeed = truth.recipe.runner.speed;
    return scene;
}

std::vector<maker::FrameTime> timesOf(double seconds)
{
    std::vector<maker::FrameTime> times;
    for (std::int64_t i = 0; static_cast<double>(i) / truthRate < seconds; ++i) {
        times.push_back({i, static_cast<double>(i) / truthRate});
    }
    return times;
}

} // namespace

Outcome<TrueRun> trueRun(maker::ClipRecipe recipe)
{
    recipe.runner.planar = recipe.camera.view != maker::View::Rear;
    ASSIGN_OR_RETURN(auto model,
                     maker::RunnerModel::create(recipe.runner, recipe.video.duration + 1.0));
    auto truth = maker::truthOf(recipe, model, timesOf(recipe.video.duration));
    auto scene = drawnExactly(truth);
    TrueRun run{recipe,           std::move(model), maker::Camera(recipe.camera),
                std::move(truth), std::move(scene), {}};
    run.values = trueValues(run);
    return run;
}

std::optional<double> meanOf(const TrueRun& run, const std::string& measure,
                             std::optional<maker::Foot> foot)
{
    const auto found = run.values.find(measure);
    if (found == run.values.end()) {
        return std::nullopt;
    }
    double sum = 0.0;
    int n = 0;
    for (std::size_t i = 0; i < found->second.size(); ++i) {
        const auto& value = found->second[i];
        if (value && (!foot || run.truth.contacts[i].foot == *foot)) {
            sum += *value;
            ++n;
        }
    }
    return n > 0 ? std::optional(sum / n) : std::nullopt;
}

std::map<std::string, double> valuesOfClip(const TrueRun& run, std::size_t first, std::size_t last)
{
    const auto& all = run.truth.contacts;
    const auto steps = static_cast<double>(last - first - 1);
    double contact = 0.0;
    double flight = 0.0;
    for (auto i = first; i < last; ++i) {
        contact += (all[i].toeOff - all[i].contact) / (steps + 1.0);
        if (i + 1 < last) {
            flight += (all[i + 1].contact - all[i].toeOff) / steps;
        }
    }
    // Sine-force model: Morin et al. 2005, J Appl Biomech 21:167.
    const double leg = run.truth.legLengthCm / 100.0;
    const double speed = run.recipe.runner.speed;
    const double pi = std::numbers::pi;
    const double force = runnersMass * 9.81 * pi / 2.0 * (flight / contact + 1.0);
    const double drop =
        force * contact * contact / (runnersMass * pi * pi) - 9.81 * contact * contact / 8.0;
    const double half = speed * contact / 2.0;
    const double squash = leg - std::sqrt(leg * leg - half * half) + drop;
    const double seconds = all[last - 1].contact - all[first].contact;
    return {{"k_vert", force / drop / 1000.0},
            {"k_leg", force / squash / 1000.0},
            {"step_rate", 60.0 * steps / seconds},
            {"step_length", speed * seconds / steps}};
}

} // namespace latemile::simulation
