// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/propose_stances.hpp"

#include "ui/document/commands/move_event.hpp"

#include <QCoreApplication>

namespace latemile::ui {

ProposeStances::ProposeStances(ClipDocument& document, const std::vector<Stance>& found)
    : StancesEdit(document, withFound(document, found),
                  QCoreApplication::translate("Commands", "find contacts"))
{
}

std::vector<Stance> ProposeStances::withFound(const ClipDocument& document,
                                              const std::vector<Stance>& found)
{
    auto stances = document.marking().stances;
    std::erase_if(stances, [](const Stance& stance) { return stance.origin != Origin::Placed; });
    for (const Stance& stance : found) {
        stances.push_back(stance);
        if (!arePossible(stances)) {
            stances.pop_back();
        }
    }
    return stances;
}

} // namespace latemile::ui
