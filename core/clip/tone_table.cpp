// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/tone_table.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

using Rgb = ToneTable::Rgb;

constexpr double referenceWhite = 203; ///< cd/m2, ITU-R BT.2408

// SMPTE ST 2084.
constexpr double m1 = 2610.0 / 16384;
constexpr double m2 = 2523.0 / 4096 * 128;
constexpr double c1 = 3424.0 / 4096;
constexpr double c2 = 2413.0 / 4096 * 32;
constexpr double c3 = 2392.0 / 4096 * 32;

double lightOfPq(double signal)
{
    const double root = std::pow(std::clamp(signal, 0.0, 1.0), 1 / m2);
    return 10000 * std::pow(std::max(root - c1, 0.0) / (c2 - c3 * root), 1 / m1);
}

double pqOfLight(double light)
{
    const double power = std::pow(std::clamp(light / 10000, 0.0, 1.0), m1);
    return std::pow((c1 + c2 * power) / (1 + c3 * power), m2);
}

/// ARIB STD-B67: the light of the scene, 0...1.
double sceneOfHlg(double signal)
{
    constexpr double a = 0.17883277;
    constexpr double b = 1 - 4 * a;
    const double c = 0.5 - a * std::log(4 * a);
    return signal <= 0.5 ? signal * signal / 3 : (std::exp((signal - c) / a) + b) / 12;
}

/// Light of a reference display, cd/m2. HLG is shown at its nominal peak of 1000 cd/m2 with a
/// system gamma of 1.2 (ITU-R BT.2100).
Rgb displayLight(const Rgb& signal, Colour::Transfer transfer)
{
    Rgb light{};
    if (transfer == Colour::Transfer::Pq) {
        std::transform(signal.begin(), signal.end(), light.begin(), lightOfPq);
        return light;
    }
    std::transform(signal.begin(), signal.end(), light.begin(), sceneOfHlg);
    const double luminance = 0.2627 * light[0] + 0.6780 * light[1] + 0.0593 * light[2];
    const double gain = 1000 * std::pow(std::max(luminance, 1e-6), 0.2);
    for (auto& part : light) {
        part *= gain;
    }
    return light;
}

/// ITU-R BT.2390, 5.4.1: a Hermite curve above the knee, in PQ signal.
double mappedLight(double light, double peak)
{
    const double whole = pqOfLight(peak);
    const double target = pqOfLight(referenceWhite) / whole;
    const double knee = 1.5 * target - 0.5;
    const double e = std::min(pqOfLight(light) / whole, 1.0);
    if (target >= 1 || e < knee) {
        return light;
    }
    const double t = (e - knee) / (1 - knee);
    const double t2 = t * t;
    const double t3 = t2 * t;
    const double mapped =
        (2 * t3 - 3 * t2 + 1) * knee + (t3 - 2 * t2 + t) * (1 - knee) + (3 * t2 - 2 * t3) * target;
    return lightOfPq(mapped * whole);
}

/// ITU-R BT.2087.
Rgb narrowed(const Rgb& wide)
{
    return {1.6605 * wide[0] - 0.5876 * wide[1] - 0.0728 * wide[2],
            -0.1246 * wide[0] + 1.1329 * wide[1] - 0.0083 * wide[2],
            -0.0182 * wide[0] - 0.1006 * wide[1] + 1.1187 * wide[2]};
}

/// IEC 61966-2-1.
double srgbOfLight(double light)
{
    const double bounded = std::clamp(light, 0.0, 1.0);
    return bounded <= 0.0031308 ? 12.92 * bounded : 1.055 * std::pow(bounded, 1 / 2.4) - 0.055;
}

} // namespace

Rgb ToneTable::toned(const Rgb& signal, Colour::Transfer transfer, bool isWideGamut, double peak)
{
    Rgb light = displayLight(signal, transfer);
    // One gain for the three keeps the hue.
    const double brightest = *std::max_element(light.begin(), light.end());
    const double gain = brightest > 0 ? mappedLight(brightest, peak) / brightest : 1;
    for (auto& part : light) {
        part *= gain / referenceWhite;
    }
    if (isWideGamut) {
        light = narrowed(light);
    }
    std::transform(light.begin(), light.end(), light.begin(), srgbOfLight);
    return light;
}

ToneTable::ToneTable(Colour::Transfer transfer, bool isWideGamut, double peak)
{
    m_knots.reserve(std::size_t{knots} * knots * knots);
    for (int r = 0; r < knots; ++r) {
        for (int g = 0; g < knots; ++g) {
            for (int b = 0; b < knots; ++b) {
                const Rgb out = toned({double(r) / cells, double(g) / cells, double(b) / cells},
                                      transfer, isWideGamut, peak);
                m_knots.push_back({static_cast<float>(out[0] * 255),
                                   static_cast<float>(out[1] * 255),
                                   static_cast<float>(out[2] * 255)});
            }
        }
    }
}

/// Tetrahedral interpolation: four knots a pixel, and greys stay grey.
void ToneTable::convertRow(const std::uint16_t* rgb, std::uint8_t* bgrx, int pixels) const
{
    constexpr float scale = float(cells) / 65535.0F;
    constexpr std::size_t steps[3] = {std::size_t{knots} * knots, knots, 1};
    for (int x = 0; x < pixels; ++x, rgb += 3, bgrx += 4) {
        float rest[3];
        std::size_t place = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            const float scaled = float(rgb[i]) * scale;
            const int cell = std::min(int(scaled), cells - 1);
            rest[i] = scaled - float(cell);
            place += std::size_t(cell) * steps[i];
        }
        std::size_t order[3] = {0, 1, 2};
        const auto sortPair = [&](std::size_t i, std::size_t j) {
            if (rest[order[i]] < rest[order[j]]) {
                std::swap(order[i], order[j]);
            }
        };
        sortPair(0, 1);
        sortPair(1, 2);
        sortPair(0, 1);
        const Knot* knot = &m_knots[place];
        Knot sum = *knot;
        for (const auto axis : order) {
            const Knot* nextKnot = knot + steps[axis];
            sum.r += rest[axis] * (nextKnot->r - knot->r);
            sum.g += rest[axis] * (nextKnot->g - knot->g);
            sum.b += rest[axis] * (nextKnot->b - knot->b);
            knot = nextKnot;
        }
        bgrx[0] = static_cast<std::uint8_t>(sum.b + 0.5F);
        bgrx[1] = static_cast<std::uint8_t>(sum.g + 0.5F);
        bgrx[2] = static_cast<std::uint8_t>(sum.r + 0.5F);
        bgrx[3] = 255;
    }
}

} // namespace latemile
