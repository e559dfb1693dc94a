// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/marks_edit.hpp"

#include "ui/document/place_name.hpp"
#include "ui/text/words.hpp"

#include <utility>

namespace latemile::ui {

MarksEdit::MarksEdit(ClipDocument& document, Changes changes, const QString& name)
    : QUndoCommand(name), m_document(document), m_other(std::move(changes))
{
}

void MarksEdit::exchange()
{
    m_document.exchangeMarks(m_other); // A followed clip has thousands of marks: told once.
}

QString markName(const ClipDocument& document, const MarkKey& key)
{
    return QStringLiteral("%1, %2").arg(wordFor(key.landmark), placeName(document, key.frame));
}

} // namespace latemile::ui
