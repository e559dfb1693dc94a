// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/bridged_marks.hpp"

#include "core/follow/gap_fill.hpp"

#include <algorithm>

namespace latemile {

namespace {

constexpr std::size_t fewestKnots = 4; ///< of a cubic

/// Marks of one landmark in order of time.
struct Run {
    std::vector<FrameNumber> frames;
    std::vector<double> times; ///< s
    std::vector<double> u;
    std::vector<double> v;
    std::vector<const Mark*> marks;

    void add(FrameNumber frame, Seconds time, const Mark& mark)
    {
        frames.push_back(frame);
        times.push_back(time.count());
        u.push_back(mark.at.u);
        v.push_back(mark.at.v);
        marks.push_back(&mark);
    }
};

bool isProposed(const Mark* mark)
{
    return mark->origin == Origin::Proposed;
}

/// A frame without a mark, and the run's mark before it.
struct Gap {
    FrameNumber frame;
    std::size_t after{};
};

std::vector<Gap> gapsOf(const Run& run)
{
    std::vector<Gap> gaps;
    for (std::size_t k = 0; k + 1 < run.frames.size(); ++k) {
        if (!isProposed(run.marks[k]) || !isProposed(run.marks[k + 1])) {
            continue;
        }
        for (auto frame = run.frames[k].value + 1; frame < run.frames[k + 1].value; ++frame) {
            gaps.push_back({{frame}, k});
        }
    }
    return gaps;
}

void fill(Marking& filled, const Run& run, MarkKey key, const FrameIndex& index)
{
    const auto gaps = gapsOf(run);
    if (gaps.empty() || run.frames.size() < fewestKnots) {
        return;
    }
    std::vector<double> where;
    for (const auto& gap : gaps) {
        where.push_back(index.time(gap.frame).count());
    }
    const auto u = shapePreserving(run.times, run.u, where);
    const auto v = shapePreserving(run.times, run.v, where);
    for (std::size_t n = 0; n < gaps.size(); ++n) {
        const auto k = gaps[n].after;
        Mark mark = *run.marks[k];
        mark.sePx = std::min(run.marks[k]->sePx, run.marks[k + 1]->sePx);
        mark.at = {u[n], v[n]};
        key.frame = gaps[n].frame;
        filled.marks[key] = mark;
    }
}

} // namespace

Marking bridged(const Marking& marking, const FrameIndex& index)
{
    auto filled = marking;
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto landmark : {Landmark::Heel, Landmark::Toe}) {
            Run run;
            for (std::int64_t number = 0; number < index.size(); ++number) {
                const MarkKey key{{number}, side, landmark};
                const auto* mark = marking.find(key);
                if (mark == nullptr) {
                    continue;
                }
                const auto time = index.time(key.frame);
                if (!run.times.empty() && time.count() - run.times.back() > widestBridge.count()) {
                    fill(filled, run, key, index);
                    run = {};
                }
                run.add(key.frame, time, *mark);
            }
            fill(filled, run, {{}, side, landmark}, index);
        }
    }
    return filled;
}

} // namespace latemile
