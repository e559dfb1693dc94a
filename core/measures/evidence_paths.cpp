// SPDX-License-Identifier: GPL-3.0-or-later
// What evidence gives over a stretch of time.
#include "core/measures/evidence.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

std::string stepWords(std::size_t step)
{
    return "step " + std::to_string(step + 1);
}

std::string landmarkWords(Landmark landmark, BodySide side)
{
    const bool pooled = side == BodySide::Near;
    return (pooled ? std::string{} : std::string(nameOf(side)) + " ") +
           std::string(nameOf(landmark));
}

/// Share of the frames of a stretch that must be marked: with holes the true extreme may lie in one
/// of them.
constexpr double leastMarked = 0.9;

/// The points of one frame that a value needs.
using Points = std::array<PlanePoint, landmarkCount>;

PlanePoint& pointOf(Points& points, Landmark landmark)
{
    return points[static_cast<std::size_t>(landmark)];
}

/// Looks the near points up; false where one of them is not marked.
bool markedOn(Points& points, const MarkTracks& tracks, FrameNumber frame, BodySide side,
              const FewLandmarks& landmarks)
{
    return std::ranges::all_of(landmarks, [&](Landmark landmark) {
        const auto* found = tracks.find({frame, side, landmark});
        if (found) {
            pointOf(points, landmark) = found->plane;
        }
        return found != nullptr;
    });
}

void insertOnce(std::vector<MarkKey>& sorted, const MarkKey& key)
{
    const auto place = std::ranges::lower_bound(sorted, key);
    if (place == sorted.end() || *place != key) {
        sorted.insert(place, key);
    }
}

/// Pixels a mark is shifted by for its slope.
constexpr double slopeShiftPx = 1e-3;

} // namespace

Sample Evidence::shiftedPath(bool markConcerns, const ValueOn& valueOn)
{
    const auto path = m_peaksAsked++;
    const auto& found = m_plain->m_peaks[path];
    const auto& d = m_disturbance;
    const auto movedBy = [&](std::size_t i) {
        return found.weights[i] * (valueOn(found.frames[i]) - found.samples[i].value);
    };
    auto vertex = found.vertex;
    if (d.path == path) {
        vertex.value += d.pathBy;
    } else if (d.scene.relativeScale != 0.0 || d.scene.rollRadians != 0.0) {
        for (std::size_t i = 0; i < found.frames.size(); ++i) {
            vertex.value += movedBy(i);
        }
    } else if (d.mark && markConcerns) {
        const auto place = std::ranges::lower_bound(found.frames, d.mark->frame);
        if (place != found.frames.end() && *place == d.mark->frame) {
            vertex.value += movedBy(static_cast<std::size_t>(place - found.frames.begin()));
        }
    }
    return vertex;
}

PixelPoint Evidence::slopeOn(const FoundPeak& found, std::size_t i, const MarkKey& mark,
                             const ValueOn& valueOn)
{
    const auto by = [&](PixelPoint shift) {
        m_disturbance.mark = mark;
        m_disturbance.markBy = shift;
        const double moved = valueOn(mark.frame) - found.samples[i].value;
        m_disturbance = {};
        return found.weights[i] * moved / slopeShiftPx;
    };
    return {by({slopeShiftPx, 0.0}), by({0.0, slopeShiftPx})};
}

Evidence::FoundPeak Evidence::partOf(const FoundPeak& all, const Peak& peak)
{
    FoundPeak part{.frames = {}, .samples = {}, .vertex = peak.vertex, .weights = peak.weights};
    for (auto i = peak.first; i < peak.last; ++i) {
        part.frames.push_back(all.frames[i]);
        part.samples.push_back(all.samples[i]);
    }
    return part;
}

Sample Evidence::keep(FoundPeak found, std::span<const std::pair<BodySide, Landmark>> points,
                      const ValueOn& valueOn)
{
    for (std::size_t i = 0; i < found.frames.size(); ++i) {
        for (const auto& [side, landmark] : points) {
            const MarkKey mark{found.frames[i], side, landmark};
            insertOnce(m_marksUsed, mark);
            if (m_pathSlopesToo == PathSlopes::Keep) {
                m_pathSlopes.push_back({mark, m_peaks.size(), slopeOn(found, i, mark, valueOn)});
            }
        }
    }
    m_peaks.push_back(std::move(found));
    return m_peaks.back().vertex;
}

bool Evidence::wasReadBesidePaths(const MarkKey& mark) const
{
    const bool isNear = mark.side == BodySide::Near;
    const bool isOfTrunk = isNear && m_usedTrunk &&
                           (mark.landmark == Landmark::Shoulder || mark.landmark == Landmark::Hip);
    const bool isOfFlatFoot = isNear && m_usedFlatFoot &&
                              (mark.landmark == Landmark::Heel || mark.landmark == Landmark::Toe);
    return isOfTrunk || isOfFlatFoot || std::ranges::binary_search(m_marksRead, mark);
}

std::string Evidence::firstHole(const Search& search) const
{
    const auto& index = m_clip.index;
    for (auto i = index.firstAtOrAfter(Seconds{search.from}).value;
         i < index.size() && index.time({i}).count() <= search.to; ++i) {
        for (const auto landmark : search.landmarks) {
            if (!m_clip.tracks.find({{i}, search.side, landmark})) {
                return landmarkWords(landmark, search.side) + " not marked on frame " +
                       std::to_string(i);
            }
        }
    }
    return landmarkWords(search.landmarks.front(), search.side) + " not marked often enough";
}

Evidence::FoundPeak Evidence::samplesOf(const Search& search) const
{
    const auto& index = m_clip.index;
    FoundPeak found;
    const double to = search.to + smoothingHalfWidth;
    const auto first = index.firstAtOrAfter(Seconds{search.from - smoothingHalfWidth}).value;
    const auto end = std::min(index.firstAtOrAfter(Seconds{to}).value + 1, index.size());
    found.samples.reserve(static_cast<std::size_t>(std::max<std::int64_t>(end - first, 0)));
    found.frames.reserve(found.samples.capacity());
    Points points;
    const Figure figure = [&points](Landmark l) { return pointOf(points, l); };
    for (auto i = first; i < end && index.time({i}).count() <= to; ++i) {
        if (markedOn(points, m_clip.tracks, {i}, search.side, search.landmarks)) {
            found.samples.push_back({index.time({i}).count(), search.value(figure)});
            found.frames.push_back({i});
        }
    }
    return found;
}

Sample Evidence::extreme(const Search& search)
{
    if (m_missing) {
        return {};
    }
    const ValueOn valueOn = [this, &search](FrameNumber frame) {
        Points points;
        for (const auto landmark : search.landmarks) {
            pointOf(points, landmark) = *pointOn({frame, search.side, landmark}, false);
        }
        return search.value([&points](Landmark l) { return pointOf(points, l); });
    };
    if (m_plain) {
        const auto& mark = m_disturbance.mark;
        return shiftedPath(mark && mark->side == search.side &&
                               search.landmarks.contains(mark->landmark),
                           valueOn);
    }
    const auto found = samplesOf(search);
    const auto& samples = found.samples;
    const auto inside = std::count_if(samples.begin(), samples.end(), [&](const Sample& s) {
        return s.time >= search.from && s.time <= search.to;
    });
    const double wanted = (search.to - search.from) / m_clip.frameInterval.count();
    if (static_cast<double>(inside) < leastMarked * wanted - 1.0) {
        setMissing(firstHole(search) + " (every frame between the instants is needed), " +
                   stepWords(m_step));
        return {};
    }
    const auto peak = peakOf(samples, search.from, search.to, search.kind);
    if (!peak) {
        setMissing("too few frames for a peak (five within 70 ms are needed), " +
                   stepWords(m_step));
        return {};
    }
    std::vector<std::pair<BodySide, Landmark>> points;
    for (const auto landmark : search.landmarks) {
        points.emplace_back(search.side, landmark);
    }
    return keep(partOf(found, *peak), points, valueOn);
}

double Evidence::near(double time, const FewLandmarks& landmarks, const OnFrame& value)
{
    if (m_missing) {
        return 0.0;
    }
    const auto frame =
        m_plain ? m_plain->m_nearestFrames[m_nearestAsked++] : m_clip.index.nearest(Seconds{time});
    if (!m_plain) {
        m_nearestFrames.push_back(frame);
    }
    for (const auto landmark : landmarks) {
        if (!m_clip.tracks.find({frame, BodySide::Near, landmark})) {
            setMissing(std::string(nameOf(landmark)) + " not marked on frame " +
                       std::to_string(frame.value) + ", " + stepWords(m_step));
            return 0.0;
        }
    }
    Points points;
    for (const auto landmark : landmarks) {
        pointOf(points, landmark) = *pointOn({frame, BodySide::Near, landmark});
    }
    return value([&points](Landmark landmark) { return pointOf(points, landmark); });
}

double Evidence::meanOver(double from, double to, Landmark landmark, const OnBothSides& value)
{
    if (m_missing) {
        return 0.0;
    }
    const ValueOn valueOn = [&](FrameNumber frame) {
        return value(*pointOn({frame, BodySide::Left, landmark}, false),
                     *pointOn({frame, BodySide::Right, landmark}, false));
    };
    if (m_plain) {
        const bool concerns = m_disturbance.mark && m_disturbance.mark->landmark == landmark;
        return shiftedPath(concerns, valueOn).value;
    }
    FoundPeak mean;
    const auto first = m_clip.index.firstAtOrAfter(Seconds{from});
    for (const auto frame : m_clip.tracks.framesFrom(first, BodySide::Left, landmark)) {
        const double time = m_clip.index.time(frame).count();
        if (time > to) {
            break;
        }
        if (m_clip.tracks.find({frame, BodySide::Right, landmark})) {
            mean.frames.push_back(frame);
            mean.samples.push_back({time, valueOn(frame)});
        }
    }
    if (mean.frames.empty()) {
        setMissing("left and right " + std::string(nameOf(landmark)) + " on no common frame, " +
                   stepWords(m_step));
        return 0.0;
    }
    mean.weights.assign(mean.frames.size(), 1.0 / static_cast<double>(mean.frames.size()));
    for (const auto& sample : mean.samples) {
        mean.vertex.value += sample.value * mean.weights.front();
    }
    const std::array<std::pair<BodySide, Landmark>, 2> points{
        {{BodySide::Left, landmark}, {BodySide::Right, landmark}}};
    return keep(std::move(mean), points, valueOn).value;
}

double Evidence::farthestAcross(double from, double to)
{
    if (m_missing) {
        return 0.0;
    }
    const auto side = ownSide();
    const ValueOn valueOn = [&](FrameNumber frame) {
        const double left = pointOn({frame, BodySide::Left, Landmark::Shoulder}, false)->x;
        const double right = pointOn({frame, BodySide::Right, Landmark::Shoulder}, false)->x;
        const double wrist = pointOn({frame, side, Landmark::Wrist}, false)->x;
        return (side == BodySide::Right ? -1.0 : 1.0) * (wrist - (left + right) / 2.0);
    };
    if (m_plain) {
        const auto& mark = m_disturbance.mark;
        const bool concerns = mark && (mark->landmark == Landmark::Shoulder ||
                                       (mark->landmark == Landmark::Wrist && mark->side == side));
        return shiftedPath(concerns, valueOn).value;
    }
    FoundPeak found;
    const auto first = m_clip.index.firstAtOrAfter(Seconds{from});
    for (const auto frame : m_clip.tracks.framesFrom(first, side, Landmark::Wrist)) {
        const double time = m_clip.index.time(frame).count();
        if (time > to) {
            break;
        }
        if (m_clip.tracks.find({frame, BodySide::Left, Landmark::Shoulder}) &&
            m_clip.tracks.find({frame, BodySide::Right, Landmark::Shoulder})) {
            found.samples.push_back({time, valueOn(frame)});
            found.frames.push_back(frame);
        }
    }
    const auto peak = peakOf(found.samples, from, to, Extreme::Highest);
    if (!peak) {
        setMissing("the wrist is in sight on too few frames, " + stepWords(m_step));
        return 0.0;
    }
    const std::array<std::pair<BodySide, Landmark>, 3> points{
        {{side, Landmark::Wrist},
         {BodySide::Left, Landmark::Shoulder},
         {BodySide::Right, Landmark::Shoulder}}};
    return keep(partOf(found, *peak), points, valueOn).value;
}

double Evidence::movedOnFrame(const FewLandmarks& landmarks, const OnFrame& value)
{
    const auto& moved = m_disturbance.mark;
    if (!moved || moved->side != BodySide::Near || !landmarks.contains(moved->landmark)) {
        return 0.0;
    }
    Points points;
    if (!markedOn(points, m_clip.tracks, moved->frame, BodySide::Near, landmarks)) {
        return 0.0;
    }
    const Figure figure = [&points](Landmark landmark) { return pointOf(points, landmark); };
    const double before = value(figure);
    pointOf(points, moved->landmark) = *pointOn(*moved, false);
    return value(figure) - before;
}

} // namespace latemile
