// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "sample_clips/maker/recipe.hpp"

#include <opencv2/core.hpp>

#include <cstdint>
#include <filesystem>
#include <memory>

namespace latemile::maker {

/// Encodes pictures into a clip file: codec by recipe, container by the file's name.
class VideoWriter {
public:
    /// `width` and `height` even; the clip's rate is the recipe's container rate. An existing file
    /// is replaced; when anything fails, or without finish(), no file is left.
    static Outcome<VideoWriter> open(const std::filesystem::path& file, const VideoRecipe& recipe,
                                     int width, int height);
    VideoWriter(VideoWriter&&) noexcept;
    VideoWriter& operator=(VideoWriter&&) noexcept;
    ~VideoWriter();

    /// Seconds of one tick of the container's own clock: time stamps are whole numbers of it.
    [[nodiscard]] double tick() const;
    /// False in a container whose frames are evenly spaced by definition.
    [[nodiscard]] bool canVaryRate() const;
    /// `planes` as Sensor gives them; `stamp` in ticks, rising.
    Outcome<void> write(const cv::Mat& planes, std::int64_t stamp);
    Outcome<void> finish();

private:
    struct Inside;
    explicit VideoWriter(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile::maker
