// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/take_marks.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

TakeMarks::TakeMarks(ClipDocument& document, const std::map<MarkKey, Mark>& marks)
    : MarksEdit(document, Changes(marks.begin(), marks.end()),
                QCoreApplication::translate("Commands", "take marks from a file"))
{
}

TakeStances::TakeStances(ClipDocument& document, std::vector<Stance> stances)
    : StancesEdit(document, std::move(stances),
                  QCoreApplication::translate("Commands", "take contacts from a file"))
{
}

} // namespace latemile::ui
