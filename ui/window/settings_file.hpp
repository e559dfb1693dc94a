// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile::ui {

/// Makes QSettings() mean a file of JSON that is replaced whole or not at all. The formats of Qt's
/// own go through QSaveFile, which in Qt 6.4 gives a file its name although the last part could not
/// be written: on a full disk all settings were lost and nobody was told. To be called once, after
/// the program has its name and before its first QSettings; what an earlier version kept in Qt's
/// own format is taken over.
void keepSettingsWhole();

} // namespace latemile::ui
