// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// The coach takes a foot's time on the ground away, contact and toe-off.
class RemoveStance final : public StancesEdit {
public:
    /// `at`: its place in the order of contact.
    RemoveStance(ClipDocument& document, std::size_t at);
};

} // namespace latemile::ui
