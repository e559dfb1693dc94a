// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// The coach looked at a proposed or followed contact and toe-off and says they are right.
class ConfirmStance final : public StancesEdit {
public:
    ConfirmStance(ClipDocument& document, std::size_t at);
};

/// All of them that are not the coach's word yet.
class ConfirmAllStances final : public StancesEdit {
public:
    explicit ConfirmAllStances(ClipDocument& document);
};

} // namespace latemile::ui
