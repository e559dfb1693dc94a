// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/retimed.hpp"

namespace latemile {

std::vector<Stance> retimed(std::vector<Stance> stances, double fromRate, double toRate)
{
    const double factor = fromRate / toRate;
    for (Stance& stance : stances) {
        stance.contact *= factor;
        if (stance.toeOff) {
            *stance.toeOff *= factor;
        }
        if (stance.se) {
            *stance.se *= factor;
        }
    }
    return stances;
}

} // namespace latemile
