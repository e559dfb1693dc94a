// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/systematic_error.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

SystematicError systematicError(Landmark landmark)
{
    using enum Landmark;
    switch (landmark) {
    case Ear:
        return {Hip, Shoulder, -0.020, -0.055, 0.010, 0.006, 0.005};
    case Shoulder:
        return {Hip, Shoulder, -0.033, -0.012, 0.028, 0.021, 0.007};
    case Elbow:
        return {Shoulder, Elbow, 0.022, 0.011, 0.010, 0.013, 0.007};
    case Wrist:
        return {Elbow, Wrist, -0.011, 0.004, 0.012, 0.016, 0.010};
    case Hip:
        return {Hip, Shoulder, -0.027, -0.024, 0.018, 0.024, 0.007};
    case Knee:
        return {Hip, Knee, 0.011, 0.001, 0.009, 0.018, 0.010};
    case Ankle:
        return {Knee, Ankle, 0.037, 0.001, 0.011, 0.018, 0.009};
    case Heel:
        return {Ankle, Toe, -0.013, 0.060, 0.015, 0.022, 0.011};
    case Toe:
        return {Ankle, Heel, 0.001, -0.050, 0.017, 0.028, 0.014};
    case Asis:
    case Psis:
    case HeelTop:
        break; // the network does not see them
    }
    return {Hip, Shoulder, 0.0, 0.0, 0.060, 0.040, 0.020};
}

double frameNoise(Landmark landmark, double peak)
{
    constexpr double sharp = 0.92;
    constexpr double growth = 5.0;
    return systematicError(landmark).frameNoise * std::exp(growth * std::max(0.0, sharp - peak));
}

} // namespace latemile
