// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/own_measures.hpp"

namespace latemile {

const std::vector<OwnMeasure>& exampleOwnMeasures()
{
    static const std::vector<OwnMeasure> examples{
        {.id = "knee_ahead_of_hip",
         .name = "Knee ahead of hip",
         .formula = "knee ahead of hip at contact",
         .unit = Unit::Centimetre,
         .positive = "knee further ahead",
         .floor = 2.0,
         .decimals = 1,
         .feet = Feet::Near,
         .meaning = "How far the near knee is ahead of the hip when the foot lands."},
        {.id = "push_off_reach",
         .name = "Push-off reach",
         .formula = "100 * (hip ahead of toe at toe-off) / leg",
         .unit = Unit::Percent,
         .positive = "toe further behind the hip",
         .floor = 2.0,
         .decimals = 1,
         .feet = Feet::Near,
         .meaning = "How far behind the hip the toe leaves the ground, as a share of the leg."}};
    return examples;
}

} // namespace latemile
