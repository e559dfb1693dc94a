// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/stances_edit.hpp"

#include <utility>

namespace latemile::ui {

StancesEdit::StancesEdit(ClipDocument& document, std::vector<Stance> stances, const QString& name)
    : QUndoCommand(name), m_document(document), m_other(std::move(stances))
{
}

} // namespace latemile::ui
