// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/confirm_stances.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {
namespace {

std::vector<Stance> confirmed(std::vector<Stance> stances, std::size_t at)
{
    stances[at].origin = Origin::Placed;
    stances[at].se.reset();
    return stances;
}

std::vector<Stance> allConfirmed(std::vector<Stance> stances)
{
    for (std::size_t at = 0; at < stances.size(); ++at) {
        if (stances[at].origin != Origin::Placed) {
            stances = confirmed(std::move(stances), at);
        }
    }
    return stances;
}

} // namespace

ConfirmStance::ConfirmStance(ClipDocument& document, std::size_t at)
    : StancesEdit(document, confirmed(document.marking().stances, at),
                  QCoreApplication::translate("Commands", "confirm contact and toe-off, step %1")
                      .arg(at + 1))
{
}

ConfirmAllStances::ConfirmAllStances(ClipDocument& document)
    : StancesEdit(document, allConfirmed(document.marking().stances),
                  QCoreApplication::translate("Commands", "accept all contacts found"))
{
}

} // namespace latemile::ui
