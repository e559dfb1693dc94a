// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include <vector>

namespace latemile::ui {

/// Things of known length a coach draws scale lines along, by name; kept in the settings. At first
/// a pole of 1 m, one of 2 m, and the side of a belt.
struct CommonLength {
    QString name;
    double cm{};
    bool operator==(const CommonLength&) const = default;
};
[[nodiscard]] std::vector<CommonLength> commonLengths();
/// Adds one, or gives the one of that name another length; a length of 0 takes it away.
void keepCommonLength(const CommonLength& length);

/// What a new scale line is given: the length used last.
[[nodiscard]] double lastLengthCm();
void rememberLastLength(double cm);

} // namespace latemile::ui
