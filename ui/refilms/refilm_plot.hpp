// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/refilms.hpp"

#include <QString>

#include <string>
#include <vector>

class QWidget;

namespace latemile::ui {

struct Tokens;

/// A stretch between two filming days in which a cue was worked on.
struct CueSpan {
    std::string from; ///< ISO 8601
    std::string to;
    QString name; ///< what the athlete was to think of
};

/// A measure over the filming days with 95 % error bars: fresh filled discs on a solid line,
/// fatigued hollow ones on a dashed line. Days that must not be set beside the newest are left
/// out. Either course may be null.
[[nodiscard]] QWidget* refilmPlot(const Measure& measure, const Course* fresh,
                                  const Course* fatigued, const std::vector<CueSpan>& cues,
                                  const Tokens& tokens, QWidget* parent);

} // namespace latemile::ui
