// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/follow_work.hpp"

#include <utility>

namespace latemile::ui {
namespace {

/// Of the progress bar: reading the headers is over before the pictures are looked at.
constexpr double openingShare = 0.05;

Outcome<FollowResult> resultOf(const FollowJob& job, const std::function<bool(double)>& tell)
{
    ClipOptions clipOptions = job.options;
    clipOptions.goOn = [&](double share) { return tell(openingShare * share); };
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(job.file, clipOptions));
    FollowOptions options;
    options.clicks = job.clicks;
    options.goOn = [&](double share) { return tell(openingShare + (1.0 - openingShare) * share); };
    return followMarks(clip, job.marking, options);
}

} // namespace

void FollowWork::follow(FollowJob job)
{
    start<FollowResult>([job = std::move(job)](const Tell& tell) { return resultOf(job, tell); },
                        [this](FollowResult result) {
                            emit followed(std::make_shared<const FollowResult>(std::move(result)));
                        });
}

} // namespace latemile::ui
