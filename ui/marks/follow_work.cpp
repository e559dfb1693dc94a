// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/follow_work.hpp"

#include "ui/marks/work_clip.hpp"

#include <utility>

namespace latemile::ui {
namespace {

Outcome<FollowResult> resultOf(const FollowJob& job, const WorkGoesOn& goesOn)
{
    ASSIGN_OR_RETURN(auto clip, openForWork(job.file, job.options, goesOn));
    FollowOptions options;
    options.clicks = job.clicks;
    options.goOn = afterOpening(goesOn);
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
