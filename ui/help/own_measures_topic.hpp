// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/help/help_topics.hpp"

namespace latemile::ui {

/// How a coach's own measure is written, from the table the formulas are read by, with two
/// examples.
[[nodiscard]] HelpTopic ownMeasuresTopic(const Keys& keys);

} // namespace latemile::ui
