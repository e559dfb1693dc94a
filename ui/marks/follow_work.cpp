// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/follow_work.hpp"

#include "ui/text/words.hpp"

#include <utility>

namespace latemile::ui {
namespace {

/// Of the progress bar: reading the headers is over before the pictures are looked at.
constexpr double openingShare = 0.05;

} // namespace

void FollowWork::start(FollowJob job)
{
    const int number = ++m_number;
    m_busy = true;
    emit progress(0);
    m_worker.post([this, job = std::move(job), number] {
        auto result = std::make_shared<Outcome<FollowResult>>(follow(job, number));
        QMetaObject::invokeMethod(
            this, [this, result, number] { take(result, number); }, Qt::QueuedConnection);
    });
}

void FollowWork::stop()
{
    ++m_number;
    m_busy = false;
}

void FollowWork::take(const std::shared_ptr<Outcome<FollowResult>>& result, int number)
{
    if (number != m_number) {
        return; // Stopped, or begun again.
    }
    m_busy = false;
    if (*result) {
        emit followed(std::make_shared<const FollowResult>(std::move(**result)));
    } else {
        emit failed(fromUtf8(result->error().sentence));
    }
}

bool FollowWork::tellShare(double share, int number)
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

Outcome<FollowResult> FollowWork::follow(const FollowJob& job, int number)
{
    ClipOptions clipOptions = job.options;
    clipOptions.goOn = [&](double share) { return tellShare(openingShare * share, number); };
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(job.file, clipOptions));
    FollowOptions options;
    options.clicks = job.clicks;
    options.goOn = [&](double share) {
        return tellShare(openingShare + (1.0 - openingShare) * share, number);
    };
    return followMarks(clip, job.marking, options);
}

} // namespace latemile::ui
