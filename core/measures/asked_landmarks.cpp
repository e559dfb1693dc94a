// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/asked_landmarks.hpp"

#include <algorithm>

namespace latemile {

namespace {

bool isReadAt(const Measure& measure, Instant instant)
{
    return measure.instant == instant ||
           measure.instantWords.find(nameOf(instant)) != std::string_view::npos;
}

} // namespace

const std::vector<std::string>& defaultMeasures()
{
    static const std::vector<std::string> six{"head_forward",      "trunk_lean",   "foot_ahead",
                                              "knee_flex_contact", "contact_time", "step_rate"};
    return six;
}

AskedLandmarks::AskedLandmarks(const std::vector<std::string>& measures, const OwnMeasures& own)
{
    for (const std::string& id : measures.empty() ? defaultMeasures() : measures) {
        const Measure* measure = own.find(id);
        if (measure == nullptr) {
            continue;
        }
        for (const Instant instant : instantsInOrder) {
            if (isReadAt(*measure, instant)) {
                want(instant, true, measure->landmarks);
                if (measure->feet == Feet::Together) {
                    want(instant, false, measure->landmarks);
                }
            }
        }
    }
}

AskedLandmarks AskedLandmarks::everything()
{
    AskedLandmarks asked{defaultMeasures()};
    const std::vector<Landmark> all(sideViewLandmarks.begin(), sideViewLandmarks.end());
    for (const Instant instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        asked.want(instant, true, all);
    }
    return asked;
}

void AskedLandmarks::want(Instant instant, bool nearFoot, const std::vector<Landmark>& landmarks)
{
    auto& wanted = (nearFoot ? m_near : m_far)[static_cast<std::size_t>(instant)];
    wanted.insert(wanted.end(), landmarks.begin(), landmarks.end());
    std::ranges::sort(wanted);
    wanted.erase(std::ranges::unique(wanted).begin(), wanted.end());
}

const std::vector<Landmark>& AskedLandmarks::at(Instant instant, bool nearFoot) const
{
    return (nearFoot ? m_near : m_far)[static_cast<std::size_t>(instant)];
}

} // namespace latemile
