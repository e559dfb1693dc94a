// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/camera_test.hpp"

namespace latemile::ui {
namespace {

Outcome<CameraVerdict> verdictOn(const std::filesystem::path& before,
                                 const std::filesystem::path& now, std::optional<double> cmPerPixel,
                                 const std::function<bool(double)>& tell)
{
    ASSIGN_OR_RETURN(const auto first,
                     readStillBackground(before, [&](double share) { return tell(0.45 * share); }));
    ASSIGN_OR_RETURN(const auto second, readStillBackground(now, [&](double share) {
                         return tell(0.45 + 0.45 * share);
                     }));
    return judgeCamera(cameraMoveBetween(first, second), first.pictureWidth, cmPerPixel);
}

} // namespace

void CameraTest::judge(const std::filesystem::path& before, const std::filesystem::path& now,
                       std::optional<double> cmPerPixel)
{
    start<CameraVerdict>([before, now, cmPerPixel](
                             const Tell& tell) { return verdictOn(before, now, cmPerPixel, tell); },
                         [this](const CameraVerdict& verdict) { emit judged(verdict); });
}

} // namespace latemile::ui
