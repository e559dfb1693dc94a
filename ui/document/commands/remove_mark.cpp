// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/remove_mark.hpp"

#include <QCoreApplication>

namespace latemile::ui {

RemoveMark::RemoveMark(ClipDocument& document, const MarkKey& key)
    : MarksEdit(document, {{key, std::nullopt}},
                QCoreApplication::translate("Commands", "remove %1").arg(markName(document, key)))
{
}

} // namespace latemile::ui
