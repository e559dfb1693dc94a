// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"
#include "ui/document/clip_details.hpp"

namespace latemile::ui {

class ClipDocument;

[[nodiscard]] ClipDetails detailsOf(const SessionClip& clip);

/// Makes the document say what `state` says, telling only what differs; of the same file.
void bring(ClipDocument& document, const SessionClip& state);

} // namespace latemile::ui
