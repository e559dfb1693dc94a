// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QString>

class QFrame;

namespace latemile::ui {

/// Labels that read every text as plain: a person's words are never taken for markup.
[[nodiscard]] QLabel* plainLabel(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QLabel* titleLabel(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QLabel* headingLabel(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QLabel* quietLabel(const QString& text, QWidget* parent = nullptr);
/// A hair line between two parts of a page.
[[nodiscard]] QFrame* rule(QWidget* parent = nullptr);
/// Sets a label's `state` ("good", "doubt", "bad" or empty) and lets the style sheet see it.
void setState(QLabel& label, const char* state);

} // namespace latemile::ui
