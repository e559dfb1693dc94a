// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/earlier_edit.hpp"

#include "ui/text/words.hpp"

#include <utility>

namespace latemile::ui {

EarlierEdit::EarlierEdit(SessionDocument& document, PastEdit edit, const bool& live)
    : QUndoCommand(fromUtf8(edit.name)), m_document(document), m_edit(std::move(edit)), m_live(live)
{
}

void EarlierEdit::apply(const std::string& changes)
{
    if (!m_live) {
        return;
    }
    // Each change was tried as the history was read; one that fits no more does nothing.
    if (const auto session = withEdit(m_document.session(), changes)) {
        m_document.become(*session);
    }
}

} // namespace latemile::ui
