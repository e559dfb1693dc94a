// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/commands/stances_edit.hpp"

namespace latemile::ui {

/// Contacts and toe-offs that were found come onto the ruler as proposals, in the place of older
/// ones. What the coach placed stays; a found one that contradicts it is left out.
class ProposeStances final : public StancesEdit {
public:
    ProposeStances(ClipDocument& document, const std::vector<Stance>& found);
    /// The stances afterwards.
    [[nodiscard]] static std::vector<Stance> withFound(const ClipDocument& document,
                                                       const std::vector<Stance>& found);
};

} // namespace latemile::ui
