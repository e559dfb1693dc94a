// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/render_clip.hpp"

#include "sample_clips/maker/sensor.hpp"
#include "sample_clips/maker/stage.hpp"
#include "sample_clips/maker/video_writer.hpp"

namespace latemile::maker {

namespace {
Outcome<void> check(const ClipRecipe& recipe)
{
    const auto& [runner, camera, picture, video] = recipe;
    const double container = video.containerRate.value_or(video.captureRate);
    const bool sizes = camera.width >= 64 && camera.height >= 64 && camera.width <= 8192 &&
                       camera.height <= 8192 && camera.width % 2 == 0 && camera.height % 2 == 0;
    if (!sizes) {
        return fail(Error::Kind::Unsupported,
                    "The picture's sides must be even numbers of pixels from 64 to 8192.");
    }
    if (!(video.captureRate >= 10 && video.captureRate <= 1000 && container >= 1 &&
          container <= 1000 && video.duration > 0 && video.duration <= 600 &&
          video.duration * video.captureRate >= 1)) {
        return fail(Error::Kind::Unsupported,
                    "A clip has 10 to 1000 frames a second and lasts at most 600 s.");
    }
    if (!(camera.distance >= 150 && camera.distance <= 3000)) {
        return fail(Error::Kind::Unsupported, "The camera stands 150 to 3000 cm away.");
    }
    return {};
}
} // namespace

Outcome<Truth> truthWithoutClip(const ClipRecipe& recipe)
{
    RETURN_IF_ERROR(check(recipe));
    ASSIGN_OR_RETURN(const auto model, RunnerModel::create(recipe.runner, recipe.video.duration));
    return truthOf(recipe, model, frameTimes(recipe.video, recipe.runner.seed, 1.0 / 60000.0));
}

Outcome<Truth> renderClip(const ClipRecipe& recipe, const std::filesystem::path& file,
                          const std::function<void(std::size_t, std::size_t)>& progress)
{
    RETURN_IF_ERROR(check(recipe));
    ASSIGN_OR_RETURN(const auto model, RunnerModel::create(recipe.runner, recipe.video.duration));
    ASSIGN_OR_RETURN(auto writer, VideoWriter::open(file, recipe.video, recipe.camera.width,
                                                    recipe.camera.height));
    if (recipe.video.variableRate && !writer.canVaryRate()) {
        return fail(Error::Kind::Unsupported, "The container of " + file.filename().string() +
                                                  " cannot hold uneven frame times: use .mp4.");
    }
    const auto times = frameTimes(recipe.video, recipe.runner.seed, writer.tick());
    Stage stage(recipe, model);
    const Sensor sensor(recipe.picture, recipe.runner.seed);
    for (std::size_t i = 0; i < times.size(); ++i) {
        const double share = times[i].seconds / recipe.video.duration;
        const auto planes = sensor.expose(stage.render(times[i].seconds), i, share);
        RETURN_IF_ERROR(writer.write(planes, times[i].stamp));
        if (progress) {
            progress(i + 1, times.size());
        }
    }
    RETURN_IF_ERROR(writer.finish());
    return truthOf(recipe, model, times);
}

} // namespace latemile::maker
