// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/theme/tokens.hpp"

#include <QRectF>

class QPainter;

namespace latemile::ui {

/// A foot's time on the ground as the ruler draws it: filled when fresh, dashed when fatigued,
/// hollow, grey and with its error as whiskers while it is a proposal.
struct StanceBar {
    QRectF box;
    int number{};    ///< of the step
    bool isWhole{};  ///< with its toe-off; else the contact alone is drawn
    bool isPlaced{}; ///< the coach's word
    bool isFatigued{};
    bool isChosen{};
    double error{}; ///< standard error of both ends, logical pixels; 0: none told
};
void paintStanceBar(QPainter& painter, const StanceBar& bar, const Tokens& tokens);

/// A question mark where something is missing, an exclamation mark where something is odd; a line
/// leads down to `bottom`.
inline constexpr double faultSignRadius = 6.5;
void paintFaultSign(QPainter& painter, QPointF centre, double bottom, bool missing,
                    const Tokens& tokens);

} // namespace latemile::ui
