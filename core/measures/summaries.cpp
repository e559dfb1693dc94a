// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/summaries.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

namespace latemile {

namespace {

using Group = std::vector<const Reading*>;

double meanOf(const Group& group)
{
    double sum = 0.0;
    for (const auto* reading : group) {
        sum += *reading->value;
    }
    return sum / static_cast<double>(group.size());
}

double squaresAround(const Group& group, double mean)
{
    double sum = 0.0;
    for (const auto* reading : group) {
        sum += (*reading->value - mean) * (*reading->value - mean);
    }
    return sum;
}

double meanCommon(const Group& group, double CommonErrors::*member)
{
    double sum = 0.0;
    for (const auto* reading : group) {
        sum += reading->common.*member;
    }
    return sum / static_cast<double>(group.size());
}

/// `groups` are the strata: their own means are taken out of the spread.
Summary summaryOf(const Measure& measure, std::optional<Foot> foot,
                  const std::vector<Group>& groups)
{
    Group all;
    double squares = 0.0;
    for (const auto& group : groups) {
        squares += squaresAround(group, meanOf(group));
        all.insert(all.end(), group.begin(), group.end());
    }
    Summary summary;
    summary.measure = measure.id;
    summary.foot = foot;
    summary.n = static_cast<int>(all.size());
    summary.mean = meanOf(all);
    summary.degreesOfFreedom = summary.n - static_cast<int>(groups.size());
    summary.common = {meanCommon(all, &CommonErrors::events), meanCommon(all, &CommonErrors::scale),
                      meanCommon(all, &CommonErrors::plumb), meanCommon(all, &CommonErrors::belt)};
    if (summary.degreesOfFreedom > 0) {
        summary.sd = std::sqrt(squares / summary.degreesOfFreedom);
    }
    const double spread = summary.sd
                              ? *summary.sd * widenedBy(measure, summary.n) / std::sqrt(summary.n)
                              : *all.front()->se;
    summary.se = std::hypot(std::hypot(spread, summary.common.events, summary.common.belt),
                            std::hypot(summary.common.scale, summary.common.plumb));
    return summary;
}

/// The values that count, by measure.
std::map<std::string_view, Group> groupsOf(const std::vector<Reading>& readings,
                                           bool unconfirmedToo)
{
    std::map<std::string_view, Group> groups;
    for (const auto& reading : readings) {
        if (reading.value && reading.step && (reading.confirmed || unconfirmedToo)) {
            groups[reading.measure].push_back(&reading);
        }
    }
    return groups;
}

Group ofFoot(const Group& all, Foot foot)
{
    Group group;
    std::ranges::copy_if(all, std::back_inserter(group),
                         [foot](const Reading* reading) { return reading->foot == foot; });
    return group;
}

/// The turn of shoulders and pelvis is of opposite sign half a stride later: only equal numbers
/// cancel it.
void appendTogether(std::vector<Summary>& summaries, const Measure& measure, Group left,
                    Group right)
{
    const auto n = std::min(left.size(), right.size());
    if (n == 0) {
        return;
    }
    left.resize(n);
    right.resize(n);
    summaries.push_back(summaryOf(measure, std::nullopt, {left, right}));
}

void appendEachFoot(std::vector<Summary>& summaries, const Measure& measure, const Group& left,
                    const Group& right, const Group& both)
{
    if (!left.empty()) {
        summaries.push_back(summaryOf(measure, Foot::Left, {left}));
    }
    if (!right.empty()) {
        summaries.push_back(summaryOf(measure, Foot::Right, {right}));
    }
    if (!both.empty() && left.size() != both.size() && right.size() != both.size()) {
        summaries.push_back(summaryOf(measure, std::nullopt, {both}));
    }
}

} // namespace

double widenedBy(const Measure& measure, int n)
{
    // Of a series whose neighbours alone are correlated by r: var(mean) = (1 + 2 r (n-1)/n) var/n,
    // and the expected square of the SD is (1 - 2 r/n) var.
    const double r = measure.sharedWithNext;
    return std::sqrt((1.0 + 2.0 * r * (n - 1) / n) / (1.0 - 2.0 * r / n));
}

std::vector<Summary> summariesOf(const std::vector<Reading>& readings, bool unconfirmedToo,
                                 const OwnMeasures& own)
{
    std::vector<Summary> summaries;
    const auto byMeasure = groupsOf(readings, unconfirmedToo);
    for (const auto* known : own.all()) {
        const auto& measure = *known;
        const auto found = byMeasure.find(measure.id);
        if (measure.isClass || found == byMeasure.end()) {
            continue;
        }
        const auto& both = found->second;
        const auto left = ofFoot(both, Foot::Left);
        const auto right = ofFoot(both, Foot::Right);
        if (measure.feet == Feet::Together) {
            appendTogether(summaries, measure, left, right);
        } else {
            appendEachFoot(summaries, measure, left, right, both);
        }
    }
    return summaries;
}

} // namespace latemile
