// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

class QCheckBox;
class QMimeData;
class QWidget;

namespace latemile::ui {

/// The video files a coach picks; the folder is remembered for the next time. Empty: none.
[[nodiscard]] QStringList askForVideos(QWidget* window);
/// Whether films stay where they are and are linked, as a box to tick; remembered.
[[nodiscard]] QCheckBox* linkChoice(QWidget* parent);
/// The files of this machine among what was dragged here; folders and web addresses are none.
[[nodiscard]] QStringList filesIn(const QMimeData& dragged);

} // namespace latemile::ui
