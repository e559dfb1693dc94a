// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/theme/tokens.hpp"

#include <QString>

#include <optional>

class QApplication;

namespace latemile::ui {

enum class ThemeChoice { System, Light, Dark };
/// "system", "light", "dark": the words of the settings and of the command line.
[[nodiscard]] QString nameOf(ThemeChoice choice);
[[nodiscard]] std::optional<ThemeChoice> themeNamed(const QString& word);

/// Dresses the whole program; may be called again at any time.
void applyTheme(QApplication& application, ThemeChoice choice);

/// A family that is installed and whose figures all have one width, so that columns of numbers
/// stand in line without font features, which Qt 6.4 cannot ask for.
[[nodiscard]] QString familyWithTabularFigures();

} // namespace latemile::ui
