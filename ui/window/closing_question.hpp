// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QString;
class QWidget;

namespace latemile::ui {

/// Asks whether the window closes although its last edits could not be saved, `fault` says why.
[[nodiscard]] bool closesUnsaved(QWidget* window, const QString& fault);

} // namespace latemile::ui
