// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/peak_fit.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>

namespace latemile {

namespace {

/// Most of the fit's standard error that is taken off for the excess: of a parabola hardly bent the
/// excess is known worse than it is large. 0.3 kept bias and coverage best over noise of 0.4 to 1.2
/// cm on a bounce of 6.6 cm and the like for knees and arms, 60 to 240 frames/s (A).
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

std::optional<Normal> normalOf(const std::vector<Sample>& samples)
{
    if (samples.size() < 3) {
        return std::nullopt;
    }
    Normal normal{(samples.front().time + samples.back().time) / 2.0,
                  (samples.back().time - samples.front().time) / 2.0, Eigen::Matrix3d::Zero()};
    if (!(normal.half > 0.0)) {
        return std::nullopt;
    }
    Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
    for (const auto& sample : samples) {
        const auto row = normal.row(sample.time);
        squares += row * row.transpose();
    }
    if (std::abs(squares.determinant()) < 1e-9) {
        return std::nullopt; // fewer than three different times
    }
    normal.inverse = squares.inverse();
    return normal;
}

std::optional<Parabola> fitted(const std::vector<Sample>& samples)
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
    return Parabola{normal->origin, p(0), p(1) / normal->half,
                    p(2) / (normal->half * normal->half)};
}

/// Where the parabola is flat its value does not hang on where exactly the vertex lies (nor where
/// it is held), so the vertex moves as the fitted value at its time does.
std::vector<double> weightsAt(double time, const std::vector<Sample>& samples)
{
    const auto normal = normalOf(samples);
    std::vector<double> weights(samples.size(), 1.0 / static_cast<double>(samples.size()));
    if (normal) {
        const Eigen::Vector3d at = normal->inverse * normal->row(time);
        for (std::size_t i = 0; i < samples.size(); ++i) {
            weights[i] = at.dot(normal->row(samples[i].time));
        }
    }
    return weights;
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
    const auto parabola = fitted(samples);
    if (!parabola || !opensFor(*parabola, kind)) {
        return std::nullopt;
    }
    const double time = vertexTime(*parabola);
    return Sample{time, parabola->at(time)};
}

Sample vertexOf(const std::vector<Sample>& samples, double from, double to, double fallback,
                Extreme kind)
{
    const auto parabola =
        fitted(samples).value_or(Parabola{fallback, samples.front().value, 0.0, 0.0});
    // Where the extreme lies at the end of the stretch the parabola may open the wrong way.
    const double time = opensFor(parabola, kind) ? vertexTime(parabola) : fallback;
    const double held =
        std::clamp(time, std::max(from, samples.front().time), std::min(to, samples.back().time));
    return {held, parabola.at(held)};
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

    /// The fitted parabola's value at `at`; nothing where three times do not differ enough.
    [[nodiscard]] std::optional<double> fittedAt(double at) const
    {
        Eigen::Matrix3d normal;
        normal << time[0], time[1], time[2], time[1], time[2], time[3], time[2], time[3], time[4];
        const double determinant = normal.determinant();
        if (!(std::abs(determinant) > 1e-6)) {
            return std::nullopt;
        }
        const double s = (at - origin) / smoothingHalfWidth;
        const Eigen::Vector3d p = normal.inverse() * Eigen::Vector3d(value[0], value[1], value[2]);
        return p(0) + s * (p(1) + s * p(2));
    }
};

/// Each sample by the parabola through those around it: what noise has at one frame it does not
/// have there.
std::vector<double> smoothed(const std::vector<Sample>& samples)
{
    std::vector<double> values;
    values.reserve(samples.size());
    Moments window;
    std::size_t first = 0;
    std::size_t last = 0;
    for (const auto& sample : samples) {
        // Moments about a far origin lose digits: begin anew every so often.
        if (values.size() % 16 == 0) {
            window = {.origin = sample.time};
            last = first;
        }
        for (;
             last < samples.size() && samples[last].time <= sample.time + smoothingHalfWidth + 1e-9;
             ++last) {
            window.add(samples[last], 1.0);
        }
        for (; samples[first].time < sample.time - smoothingHalfWidth - 1e-9; ++first) {
            window.add(samples[first], -1.0);
        }
        const bool enough = last - first >= peakFewestSamples;
        values.push_back(
            (enough ? window.fittedAt(sample.time) : std::nullopt).value_or(sample.value));
    }
    return values;
}

/// The vertex of a noisy parabola lies too high on average, by the variance of its slope there over
/// twice its bend (second order in the noise, which is taken from what the fit leaves).
double excessOf(const std::vector<Sample>& window, const Sample& vertex)
{
    const auto normal = normalOf(window);
    const auto parabola = fitted(window);
    if (!normal || !parabola || window.size() <= peakFewestSamples) {
        return 0.0;
    }
    double squares = 0.0;
    for (const auto& sample : window) {
        const double rest = sample.value - parabola->at(sample.time);
        squares += rest * rest;
    }
    const double noise = squares / static_cast<double>(window.size() - 3);
    const Eigen::Vector3d at = normal->row(vertex.time);
    const Eigen::Vector3d slope(0.0, 1.0, 2.0 * at(1));
    const double ofSlope = noise * slope.dot(normal->inverse * slope);
    const double bend = 2.0 * std::abs(parabola->c) * normal->half * normal->half;
    const double se = std::sqrt(noise * at.dot(normal->inverse * at));
    return std::min(ofSlope / (2.0 * bend), mostExcess * se);
}

/// The vertex lies where the parabola turns, not where it was held.
bool turnsInside(const std::vector<Sample>& window, const Sample& vertex, Extreme kind)
{
    const auto parabola = fitted(window);
    return parabola && opensFor(*parabola, kind) &&
           std::abs(vertexTime(*parabola) - vertex.time) < 1e-12;
}

} // namespace

std::optional<Peak> peakOf(const std::vector<Sample>& samples, double from, double to, Extreme kind)
{
    const auto isBetter = [kind](double a, double b) {
        return kind == Extreme::Highest ? a > b : a < b;
    };
    const auto smooth = smoothed(samples);
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const bool inside = samples[i].time >= from && samples[i].time <= to;
        if (inside && (!best || isBetter(smooth[i], smooth[*best]))) {
            best = i;
        }
    }
    if (!best) {
        return std::nullopt;
    }
    const double centre = samples[*best].time;
    const auto near = [&](const Sample& s) { return std::abs(s.time - centre) <= peakHalfWidth; };
    const auto first = std::find_if(samples.begin(), samples.end(), near);
    const auto last = std::find_if_not(first, samples.end(), near);
    const std::vector<Sample> window(first, last);
    if (window.size() < peakFewestSamples) {
        return std::nullopt;
    }
    Peak peak{.vertex = vertexOf(window, from, to, centre, kind),
              .weights = {},
              .first = static_cast<std::size_t>(first - samples.begin()),
              .last = static_cast<std::size_t>(last - samples.begin())};
    peak.weights = weightsAt(peak.vertex.time, window);
    if (turnsInside(window, peak.vertex, kind)) {
        const double excess = excessOf(window, peak.vertex);
        peak.vertex.value += kind == Extreme::Highest ? -excess : excess;
    }
    return peak;
}

} // namespace latemile
