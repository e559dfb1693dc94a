// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <QString>

#include <filesystem>

class QMenu;

namespace latemile::ui {

class ClipDocument;
class MainWindow;

/// What goes out of a session to other programs and to the athlete, and what comes back: the film
/// of its steps, the numbers of the clip in front, marks from a file.
void addExchange(QMenu& menu, MainWindow& window);

/// All numbers of an open, marked clip into a folder; what was written, in words.
Outcome<QString> exportNumbers(const ClipDocument& clip, const std::filesystem::path& folder);
/// Marks or contacts of a file as one step that can be undone; what came, in words.
Outcome<QString> takeMarking(ClipDocument& clip, const std::filesystem::path& file);

} // namespace latemile::ui
