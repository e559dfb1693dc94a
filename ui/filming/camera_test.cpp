// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/camera_test.hpp"

#include "ui/text/words.hpp"

#include <memory>

namespace latemile::ui {

void CameraTest::start(const std::filesystem::path& before, const std::filesystem::path& now,
                       std::optional<double> cmPerPixel)
{
    const int number = ++m_number;
    m_busy = true;
    emit progress(0);
    m_worker.post([this, before, now, cmPerPixel, number] {
        auto result =
            std::make_shared<Outcome<CameraVerdict>>(judge(before, now, cmPerPixel, number));
        QMetaObject::invokeMethod(
            this,
            [this, result, number] {
                if (number != m_number) {
                    return; // Stopped, or asked again.
                }
                m_busy = false;
                if (*result) {
                    emit judged(**result);
                } else {
                    emit failed(fromUtf8(result->error().sentence));
                }
            },
            Qt::QueuedConnection);
    });
}

void CameraTest::stop()
{
    ++m_number;
    m_busy = false;
}

bool CameraTest::tellShare(double share, int number)
{
    const int percent = static_cast<int>(100 * share);
    QMetaObject::invokeMethod(
        this,
        [this, percent, number] {
            if (number == m_number) {
                emit progress(percent);
            }
        },
        Qt::QueuedConnection);
    return number == m_number && !m_stopped;
}

Outcome<CameraVerdict> CameraTest::judge(const std::filesystem::path& before,
                                         const std::filesystem::path& now,
                                         std::optional<double> cmPerPixel, int number)
{
    ASSIGN_OR_RETURN(const auto first, readStillBackground(before, [&](double share) {
                         return tellShare(0.45 * share, number);
                     }));
    ASSIGN_OR_RETURN(const auto second, readStillBackground(now, [&](double share) {
                         return tellShare(0.45 + 0.45 * share, number);
                     }));
    return judgeCamera(cameraMoveBetween(first, second), first.pictureWidth, cmPerPixel);
}

} // namespace latemile::ui
