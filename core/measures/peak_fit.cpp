// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/peak_fit.hpp"

#include <Eigen/QR>

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

/// Times are centred and scaled, so that 4 ms apart or 4 s apart condition the fit alike.
std::optional<Parabola> fitted(const std::vector<Sample>& samples)
{
    if (samples.size() < 3) {
        return std::nullopt;
    }
    const double origin = (samples.front().time + samples.back().time) / 2.0;
    const double half = (samples.back().time - samples.front().time) / 2.0;
    if (!(half > 0.0)) {
        return std::nullopt;
    }
    const auto n = static_cast<Eigen::Index>(samples.size());
    Eigen::MatrixX3d m(n, 3);
    Eigen::VectorXd values(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const auto& sample = samples[static_cast<std::size_t>(i)];
        const double s = (sample.time - origin) / half;
        m.row(i) << 1.0, s, s * s;
        values(i) = sample.value;
    }
    const auto solver = m.colPivHouseholderQr();
    if (solver.rank() < 3) {
        return std::nullopt;
    }
    const Eigen::Vector3d p = solver.solve(values);
    return Parabola{origin, p(0), p(1) / half, p(2) / (half * half)};
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
    Peak peak{samples[*best], static_cast<std::size_t>(first - samples.begin()),
              static_cast<std::size_t>(last - samples.begin())};
    const auto parabola = fitted(window);
    if (!parabola) {
        return std::nullopt;
    }
    // Where the extreme lies at the end of the stretch the parabola may open the wrong way: then
    // the fit is read at the sample itself.
    const double time = opensFor(*parabola, kind) ? vertexTime(*parabola) : centre;
    const double held =
        std::clamp(time, std::max(from, window.front().time), std::min(to, window.back().time));
    peak.vertex = {held, parabola->at(held)};
    return peak;
}

} // namespace latemile
