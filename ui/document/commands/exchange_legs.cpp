// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/exchange_legs.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

ExchangeLegs::ExchangeLegs(ClipDocument& document, std::shared_ptr<LegTurns> turns,
                           FrameNumber from, std::optional<FrameNumber> to)
    : MarksEdit(document, exchangedLegMarks(document.marking(), from, to),
                QCoreApplication::translate("Commands", "exchange near and far leg")),
      m_turns(std::move(turns)), m_from(from), m_to(to)
{
}

void ExchangeLegs::redo()
{
    MarksEdit::redo();
    turn();
}

void ExchangeLegs::undo()
{
    MarksEdit::undo();
    turn();
}

/// Its own opposite, as the exchange of the marks is.
void ExchangeLegs::turn()
{
    *m_turns = withExchange(std::move(*m_turns), m_from, m_to);
}

} // namespace latemile::ui
