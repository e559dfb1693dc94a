// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/remove_stance.hpp"

#include "ui/text/words.hpp"

#include <QCoreApplication>

namespace latemile::ui {
namespace {

std::vector<Stance> without(std::vector<Stance> stances, std::size_t at)
{
    stances.erase(stances.begin() + static_cast<std::ptrdiff_t>(at));
    return stances;
}

} // namespace

RemoveStance::RemoveStance(ClipDocument& document, std::size_t at)
    : StancesEdit(document, without(document.marking().stances, at),
                  QCoreApplication::translate("Commands", "remove step %1, %2")
                      .arg(at + 1)
                      .arg(wordFor(document.marking().stances[at].foot)))
{
}

} // namespace latemile::ui
