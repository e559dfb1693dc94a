// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/propose_work.hpp"

#include "core/propose/joined_proposals.hpp"

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

/// The first share of the work is looking, if there is anything to look at.
double lookingShare(const ProposeJob& job)
{
    constexpr double withFollowing = 0.9;
    return !job.follows ? 1.0 : job.search.frames.empty() ? 0.0 : withFollowing;
}

Outcome<SearchedClip> searched(const ProposeJob& job, const SearchGoesOn& goesOn)
{
    SearchedClip result{.found = {}, .path = job.search.path, .boxWanted = {}};
    if (!job.search.frames.empty()) {
        const auto looksOn = [&](double share) { return goesOn(lookingShare(job) * share); };
        ASSIGN_OR_RETURN(result, searchClipFile(job.search, looksOn));
    }
    result.found.insert(result.found.end(), job.known.begin(), job.known.end());
    std::ranges::sort(result.found, {}, &FoundBody::frame);
    return result;
}

Outcome<BestProposals> proposalsOf(const ProposeJob& job, const BodyPaths& paths,
                                   const SearchGoesOn& goesOn)
{
    if (!job.follows) {
        return BestProposals{proposalsFrom(paths, job.marks), {}};
    }
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(job.search.clip, job.search.options));
    FollowOptions options;
    options.clicks = job.clicks;
    options.goOn = [&goesOn, from = lookingShare(job)](double share) {
        return goesOn(from + (1.0 - from) * share);
    };
    return bestProposals(clip, paths, job.marks, options);
}

Outcome<ProposeResult> resultOf(const ProposeJob& job, const SearchGoesOn& goesOn)
{
    ProposeResult result;
    ASSIGN_OR_RETURN(result.searched, searched(job, goesOn));
    if (!result.searched.boxWanted.empty()) {
        return result;
    }
    auto paths = bodyPathsFrom(result.searched.found, job.view, job.width, job.height);
    if (!paths) {
        result.fault = paths.error();
        return result;
    }
    exchangeLegs(*paths, job.turns);
    ASSIGN_OR_RETURN(auto best, proposalsOf(job, *paths, goesOn));
    result.proposals = std::move(best.proposals);
    std::erase_if(result.proposals, [](const auto& entry) { return !isOfUse(entry.first); });
    result.remarks = paths->remarks;
    if (!best.remark.empty()) {
        result.remarks.push_back(best.remark);
    }
    result.frames = paths->frames.size();
    return result;
}

} // namespace

bool isOfUse(const MarkKey& key)
{
    const bool isLowerLeg = key.landmark == Landmark::Knee || key.landmark == Landmark::Ankle ||
                            key.landmark == Landmark::Heel || key.landmark == Landmark::Toe;
    return key.side == BodySide::Near || isLowerLeg;
}

void ProposeWork::propose(ProposeJob job)
{
    m_enough = std::make_shared<std::atomic<bool>>(false);
    start<ProposeResult>(
        [job = std::move(job), enough = m_enough](const Tell& tell) {
            return resultOf(job, [&](double share) { return tell(share) && !*enough; });
        },
        [this](ProposeResult result) {
            result.isStopped = isEndedEarly();
            emit proposed(std::make_shared<const ProposeResult>(std::move(result)));
        });
}

void ProposeWork::endEarly()
{
    if (m_enough) {
        *m_enough = true;
    }
}

} // namespace latemile::ui
