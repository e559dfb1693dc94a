// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/peak_fit.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

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

std::optional<Peak> peakOf(const std::vector<Sample>& samples, double from, double to, Extreme kind)
{
    const auto isBetter = [kind](double a, double b) {
        return kind == Extreme::Highest ? a > b : a < b;
    };
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const bool inside = samples[i].time >= from && samples[i].time <= to;
        if (inside && (!best || isBetter(samples[i].value, samples[*best].value))) {
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
    return peak;
}

} // namespace latemile
