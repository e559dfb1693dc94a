// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/confirm_stances.hpp"

#include <QCoreApplication>

namespace latemile::ui {
namespace {

std::vector<Stance> confirmed(std::vector<Stance> stances, std::size_t at)
{
    stances[at].origin = Origin::Placed;
    stances[at].se.reset();
    return stances;
}

} // namespace

ConfirmStance::ConfirmStance(ClipDocument& document, std::size_t at)
    : StancesEdit(document, confirmed(document.marking().stances, at),
                  QCoreApplication::translate("Commands", "confirm contact and toe-off, step %1")
                      .arg(at + 1))
{
}

} // namespace latemile::ui
