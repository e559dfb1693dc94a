// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <QString>

namespace latemile::ui {

/// What a file was found to be, in plain words, a line a matter: its picture, how long it is, how
/// its time is known, the camera where the file names it. `file` as it is called in the session.
[[nodiscard]] QString factsText(const QString& file, const ClipFacts& facts);

/// The same text with places at which a long file name may be broken: a label that wraps would
/// else be as wide as the name.
[[nodiscard]] QString breakable(QString text);

} // namespace latemile::ui
