// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_capture_rate.hpp"

#include "core/marks/retimed.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

SetCaptureRate::SetCaptureRate(ClipDocument& document, std::optional<double> rate)
    : QUndoCommand(QCoreApplication::translate("Commands", "set capture rate")),
      m_document(document), m_other(document.scene())
{
    const ClipFacts& facts = document.feed().facts();
    m_other.captureRate = rate;
    m_stances =
        retimed(document.marking().stances, facts.captureRate, rate.value_or(facts.containerRate));
}

void SetCaptureRate::redo()
{
    m_stances = m_document.replaceStances(std::move(m_stances));
    m_other = m_document.replaceScene(std::move(m_other));
}

void SetCaptureRate::undo()
{
    redo();
}

} // namespace latemile::ui
