// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeat_result.hpp"
#include "ui/theme/tokens.hpp"

class QCustomPlot;

namespace latemile::ui {

/// Differences of two markings against their means, with the bias and the limits of agreement
/// (Bland and Altman 1986). Clears what the plot held.
void drawAgreement(QCustomPlot& plot, const MeasureRepeat& repeat, const Tokens& tokens);

} // namespace latemile::ui
