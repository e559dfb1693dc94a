// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/ruler_scale.hpp"

#include <algorithm>

namespace latemile::ui {

double RulerScale::at(Seconds time) const
{
    return left + (time - from) / (to - from) * (right - left);
}

Seconds RulerScale::timeAt(double x) const
{
    return from + (to - from) * ((x - left) / (right - left));
}

Seconds RulerScale::tickStep(double apart) const
{
    const double pixelsPerSecond = (right - left) / (to - from).count();
    for (const double step : {0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 30.0}) {
        if (step * pixelsPerSecond >= apart) {
            return Seconds{step};
        }
    }
    return Seconds{60.0};
}

RulerScale RulerScale::zoomed(double factor, Seconds around, Seconds end) const
{
    const Seconds length = std::clamp((to - from) / factor, std::min(end, Seconds{0.4}), end);
    const double share = (around - from) / (to - from);
    RulerScale scale = *this;
    scale.from = std::clamp(around - length * share, Seconds{}, end - length);
    scale.to = scale.from + length;
    return scale;
}

} // namespace latemile::ui
