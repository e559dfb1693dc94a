// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/welch.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <cmath>

namespace latemile {

namespace {

constexpr double normalQuantile = 1.959963984540054;
constexpr double upperTail = 0.975;

double square(double value)
{
    return value * value;
}

} // namespace

double studentQuantile(double probability, double degreesOfFreedom)
{
    return boost::math::quantile(boost::math::students_t(degreesOfFreedom), probability);
}

WelchDifference welchDifference(const StepSpread& first, const StepSpread& second)
{
    const double a1 = square(first.sd) / first.n;
    const double a2 = square(second.sd) / second.n;
    WelchDifference result{second.mean - first.mean, std::sqrt(a1 + a2), 0.0, normalQuantile};
    const double scatter =
        square(a1) / (first.n - first.strata) + square(a2) / (second.n - second.strata);
    if (scatter > 0.0) {
        result.degreesOfFreedom = square(a1 + a2) / scatter;
        result.quantile = studentQuantile(upperTail, result.degreesOfFreedom);
    }
    return result;
}

} // namespace latemile
