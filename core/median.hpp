// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <vector>

namespace latemile {

/// The middle of the values in order, of an even number the upper of the two middle ones: a value
/// that occurs among them. At least one is needed.
template <class Value>
[[nodiscard]] Value upperMedianOf(std::vector<Value> values)
{
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::ranges::nth_element(values, middle);
    return *middle;
}

/// The middle of the values in order, of an even number the mean of the two middle ones. At least
/// one is needed.
[[nodiscard]] inline double medianOf(std::vector<double> values)
{
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::ranges::nth_element(values, middle);
    return values.size() % 2 == 1 ? *middle
                                  : (*middle + *std::max_element(values.begin(), middle)) / 2.0;
}

} // namespace latemile
