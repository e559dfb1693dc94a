// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QHBoxLayout;
class QVBoxLayout;
class QWidget;

namespace latemile::ui {

/// A layout of its own for a widget within a part of the page: no margins, close together.
[[nodiscard]] QHBoxLayout* rowIn(QWidget* widget);
[[nodiscard]] QVBoxLayout* columnIn(QWidget* widget);

} // namespace latemile::ui
