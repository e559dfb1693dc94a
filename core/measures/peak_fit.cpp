// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/peak_fit.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <utility>

namespace latemile {

namespace {

/// Most of the fit's standard error that is taken off for the excess: of a parabola hardly bent the
/// excess is known worse than it is large. 0.3 kept bias and coverage best over noise of 0.4 to 1.2
/// cm on a bounce of 6.6 cm and the like for knees and arms, 60 to 240 frames/s (a choice of this
/// project).
constexpr double mostExcess = 0.3;

/// value = a + b s + c s^2, s = time - origin.
struct Parabola {
    double origin{};
    double a{}, b{}, c{};
    [[nodiscard]] double at(double time) const
    {
        const double s = time - origin;
        return a + s * (b + s * c);
    }
};

/// The normal equations of a parabola. Times are centred and scaled, so that 4 ms apart or 4 s
/// apart condition the fit alike; three unknowns are then as good as any other way.
struct Normal {
    double origin{};
    double half{};
    Eigen::Matrix3d inverse;
    [[nodiscard]] Eigen::Vector3d row(double time) const
    {
        const double s = (time - origin) / half;
        return {1.0, s, s * s};
    }
};

/// A parabola through samples by least squares, and how it hangs on them.
struct Fit {
    Normal normal;
    Parabola parabola;
};

std::optional<Normal> normalOf(std::span<const Sample> samples)
{
    if (samples.size() < 3) {
        return std::nullopt;
    }
    Normal normal{(samples.front().time + samples.back().time) / 2.0,
                  (samples.back().time - samples.front().time) / 2.0, Eigen::Matrix3d::Zero()};
    if (!(normal.half > 0.0)) {
        return std::nullopt;
    }
    // Sums of powers: the products of (1, x, x^2) with itself.
    std::array<double, 5> sums{static_cast<double>(samples.size())};
    for (const auto& sample : samples) {
        const double x = normal.row(sample.time)(1);
        double power = 1.0;
        for (std::size_t i = 1; i < sums.size(); ++i) {
            power *= x;
            sums[i] += power;
        }
    }
    Eigen::Matrix3d squares;
    squares << sums[0], sums[1], sums[2], sums[1], sums[2], sums[3], sums[2], sums[3], sums[4];
    if (std::abs(squares.determinant()) < 1e-9) {
        return std::nullopt; // fewer than three different times
    }
    normal.inverse = squares.inverse();
    return normal;
}

std::optional<Fit> fitted(std::span<const Sample> samples)
{
    const auto normal = normalOf(samples);
    if (!normal) {
        return std::nullopt;
    }
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    for (const auto& sample : samples) {
        right += sample.value * normal->row(sample.time);
    }
    const Eigen::Vector3d p = normal->inverse * right;
    return Fit{*normal,
               {normal->origin, p(0), p(1) / normal->half, p(2) / (normal->half * normal->half)}};
}

bool opensFor(const Parabola& parabola, Extreme kind)
{
    return kind == Extreme::Highest ? parabola.c < 0.0 : parabola.c > 0.0;
}

double vertexTime(const Parabola& parabola)
{
    return parabola.origin - parabola.b / (2.0 * parabola.c);
}

} // namespace

std::optional<Sample> parabolaVertex(const std::vector<Sample>& samples, Extreme kind)
{
    const auto fit = fitted(samples);
    if (!fit || !opensFor(fit->parabola, kind)) {
        return std::nullopt;
    }
    const double time = vertexTime(fit->parabola);
    return Sample{time, fit->parabola.at(time)};
}

namespace {

/// Sums over a window of samples, times against `origin`; samples come in and go out at its ends.
struct Moments {
    double origin{};
    std::array<double, 5> time{};  ///< sums of s^0 ... s^4
    std::array<double, 3> value{}; ///< sums of s^0 y ... s^2 y

    void add(const Sample& sample, double sign)
    {
        const double s = (sample.time - origin) / smoothingHalfWidth;
        double power = sign;
        for (std::size_t i = 0; i < time.size(); ++i, power *= s) {
            time[i] += power;
            if (i < value.size()) {
                value[i] += power * sample.value;
            }
        }
    }

    /// The fitted parabola's value at `at`; nothing where three times do not differ enough. Three
    /// equations by their cofactors: asked for every sample of every stretch.
    [[nodiscard]] std::optional<double> fittedAt(double at) const
    {
        const auto& t = time;
        const double c00 = t[2] * t[4] - t[3] * t[3];
        const double c01 = t[2] * t[3] - t[1] * t[4];
        const double c02 = t[1] * t[3] - t[2] * t[2];
        const double c11 = t[0] * t[4] - t[2] * t[2];
        const double c12 = t[1] * t[2] - t[0] * t[3];
        const double c22 = t[0] * t[2] - t[1] * t[1];
        const double determinant = t[0] * c00 + t[1] * c01 + t[2] * c02;
        if (!(std::abs(determinant) > 1e-6)) {
            return std::nullopt;
        }
        const double s = (at - origin) / smoothingHalfWidth;
        const double a = c00 * value[0] + c01 * value[1] + c02 * value[2];
        const double b = c01 * value[0] + c11 * value[1] + c12 * value[2];
        const double c = c02 * value[0] + c12 * value[1] + c22 * value[2];
        return (a + s * (b + s * c)) / determinant;
    }
};

/// Each sample of [from, to) by the parabola through those around it: what noise has at one frame
/// it does not have there.
std::vector<double> smoothed(std::span<const Sample> samples, std::size_t from, std::size_t to)
{
    std::vector<double> values;
    values.reserve(to - from);
    Moments window;
    std::size_t first = 0;
    std::size_t last = 0;
    for (const auto& sample : samples.subspan(from, to - from)) {
        for (; samples[first].time < sample.time - smoothingHalfWidth - 1e-9; ++first) {
            if (first < last) {
                window.add(samples[first], -1.0);
            }
        }
        // Moments about a far origin lose digits: begin anew every so often.
        if (values.size() % 16 == 0) {
            window = {.origin = sample.time};
            last = first;
        }
        last = std::max(last, first);
        for (;
             last < samples.size() && samples[last].time <= sample.time + smoothingHalfWidth + 1e-9;
             ++last) {
            window.add(samples[last], 1.0);
        }
        const bool enough = last - first >= peakFewestSamples;
        values.push_back(
            (enough ? window.fittedAt(sample.time) : std::nullopt).value_or(sample.value));
    }
    return values;
}

/// Where a parabola is highest (lowest) within the stretch and among the samples it was fitted to;
/// of one that opens the wrong way, as at an end of the stretch, its value at `fallback`.
struct Vertex {
    Sample at;
    bool turns{}; ///< the parabola turns there; it was not held
};

Vertex vertexOf(const Fit& fit, std::span<const Sample> window, double from, double to,
                double fallback, Extreme kind)
{
    const bool opens = opensFor(fit.parabola, kind);
    const double time = opens ? vertexTime(fit.parabola) : fallback;
    const double held =
        std::clamp(time, std::max(from, window.front().time), std::min(to, window.back().time));
    return {{held, fit.parabola.at(held)}, opens && std::abs(time - held) < 1e-12};
}

/// Where the parabola is flat its value does not hang on where exactly the vertex lies (nor where
/// it is held), so the vertex moves as the fitted value at its time does.
std::vector<double> weightsAt(double time, const Normal& normal, std::span<const Sample> window)
{
    std::vector<double> weights;
    weights.reserve(window.size());
    const Eigen::Vector3d at = normal.inverse * normal.row(time);
    for (const auto& sample : window) {
        weights.push_back(at.dot(normal.row(sample.time)));
    }
    return weights;
}

double restSquares(const Fit& fit, std::span<const Sample> window)
{
    double squares = 0.0;
    for (const auto& sample : window) {
        const double rest = sample.value - fit.parabola.at(sample.time);
        squares += rest * rest;
    }
    return squares;
}

/// The vertex of a noisy parabola lies too high on average, by the variance of its slope there over
/// twice its bend (second order in the noise, which is taken from what the fit leaves).
double excessOf(const Fit& fit, std::span<const Sample> window, const Sample& vertex)
{
    if (window.size() <= peakFewestSamples) {
        return 0.0;
    }
    const auto& normal = fit.normal;
    const double noise = restSquares(fit, window) / static_cast<double>(window.size() - 3);
    const Eigen::Vector3d at = normal.row(vertex.time);
    const Eigen::Vector3d slope(0.0, 1.0, 2.0 * at(1));
    const double ofSlope = noise * slope.dot(normal.inverse * slope);
    const double bend = 2.0 * std::abs(fit.parabola.c) * normal.half * normal.half;
    const double se = std::sqrt(noise * at.dot(normal.inverse * at));
    return std::min(ofSlope / (2.0 * bend), mostExcess * se);
}

/// One of several places where the extreme may be: its height as smoothed, highest counted up.
struct Candidate {
    std::size_t at{}; ///< sample
    double height{};
};

/// The turning points of the smoothed samples of [from, ...), best first; of those nearer to each
/// other than their fits are wide the best alone.
std::vector<Candidate> candidatesOf(std::span<const Sample> samples, std::size_t from,
                                    const std::vector<double>& smooth, Extreme kind)
{
    const double sign = kind == Extreme::Highest ? 1.0 : -1.0;
    std::vector<Candidate> turning;
    for (std::size_t i = 0; i < smooth.size(); ++i) {
        const double here = sign * smooth[i];
        const bool rises = i == 0 || here > sign * smooth[i - 1];
        const bool falls = i + 1 == smooth.size() || here >= sign * smooth[i + 1];
        if (rises && falls) {
            turning.push_back({from + i, here});
        }
    }
    std::ranges::stable_sort(turning, std::ranges::greater{}, &Candidate::height);
    std::vector<Candidate> apart;
    for (const auto& candidate : turning) {
        const bool isNew = std::ranges::all_of(apart, [&](const Candidate& other) {
            return std::abs(samples[candidate.at].time - samples[other.at].time) >
                   2.0 * peakHalfWidth;
        });
        if (isNew) {
            apart.push_back(candidate);
        }
    }
    return apart;
}

std::span<const Sample> around(std::span<const Sample> samples, double centre, double halfWidth)
{
    const auto near = [&](const Sample& s) { return std::abs(s.time - centre) <= halfWidth; };
    const auto first = std::find_if(samples.begin(), samples.end(), near);
    return {first, std::find_if_not(first, samples.end(), near)};
}

struct MeanAndVariance {
    double mean{};
    double variance{};
};

/// The greater of two independent normal values: Clark 1961, The greatest of a finite set of random
/// variables, Operations Research 9:145.
MeanAndVariance greaterOf(const MeanAndVariance& a, const MeanAndVariance& b)
{
    const double spread = std::sqrt(a.variance + b.variance);
    if (!(spread > 0.0)) {
        return a.mean >= b.mean ? a : b;
    }
    const double alpha = (a.mean - b.mean) / spread;
    const double density = std::exp(-alpha * alpha / 2.0) / std::sqrt(2.0 * std::numbers::pi);
    const double ofA = std::erfc(-alpha / std::numbers::sqrt2) / 2.0;
    const double mean = a.mean * ofA + b.mean * (1.0 - ofA) + spread * density;
    const double square = (a.mean * a.mean + a.variance) * ofA +
                          (b.mean * b.mean + b.variance) * (1.0 - ofA) +
                          (a.mean + b.mean) * spread * density;
    return {mean, std::max(square - mean * mean, 0.0)};
}

/// Of several extremes about equally far out the farthest as marked is too far out on average: by
/// so much, were they as far apart as they look.
double excessOfChoice(std::span<const Sample> samples, const std::vector<Candidate>& candidates)
{
    double squares = 0.0;
    double degreesOfFreedom = 0.0;
    for (const auto& candidate : candidates) {
        const auto window = around(samples, samples[candidate.at].time, peakHalfWidth);
        if (const auto fit = fitted(window)) {
            squares += restSquares(*fit, window);
            degreesOfFreedom += static_cast<double>(window.size()) - 3.0;
        }
    }
    const double noise = degreesOfFreedom > 0.0 ? squares / degreesOfFreedom : 0.0;
    const double best = candidates.front().height; // counted from, or digits are lost
    std::optional<MeanAndVariance> greatest;
    for (const auto& candidate : candidates) {
        const double time = samples[candidate.at].time;
        const auto normal = normalOf(around(samples, time, smoothingHalfWidth));
        const Eigen::Vector3d row = normal ? normal->row(time) : Eigen::Vector3d::Zero();
        const MeanAndVariance one{candidate.height - best,
                                  normal ? noise * row.dot(normal->inverse * row) : noise};
        greatest = greatest ? greaterOf(*greatest, one) : one;
    }
    return std::max(greatest->mean, 0.0);
}

} // namespace

std::optional<Peak> peakOf(const std::vector<Sample>& samples, double from, double to, Extreme kind)
{
    const auto place = [&](auto found) {
        return static_cast<std::size_t>(found - samples.begin());
    };
    const auto firstInside = place(std::ranges::lower_bound(samples, from, {}, &Sample::time));
    const auto endInside = place(std::ranges::upper_bound(samples, to, {}, &Sample::time));
    if (firstInside >= endInside) {
        return std::nullopt;
    }
    const auto smooth = smoothed(samples, firstInside, endInside);
    const auto candidates = candidatesOf(samples, firstInside, smooth, kind);
    const double centre = samples[candidates.front().at].time;
    const auto window = around(samples, centre, peakHalfWidth);
    const auto fit = window.size() < peakFewestSamples ? std::nullopt : fitted(window);
    if (!fit) {
        return std::nullopt;
    }
    auto [vertex, turns] = vertexOf(*fit, window, from, to, centre, kind);
    auto weights = weightsAt(vertex.time, fit->normal, window);
    double excess = turns ? excessOf(*fit, window, vertex) : 0.0;
    if (candidates.size() > 1) {
        excess += excessOfChoice(samples, candidates);
    }
    vertex.value += kind == Extreme::Highest ? -excess : excess;
    const auto first = static_cast<std::size_t>(window.data() - samples.data());
    return Peak{.vertex = vertex,
                .weights = std::move(weights),
                .first = first,
                .last = first + window.size()};
}

} // namespace latemile
