// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/clip_document.hpp"

#include <QUndoCommand>

#include <vector>

namespace latemile::ui {

/// The stances of a clip become others: what every command on contacts and toe-offs does.
class StancesEdit : public QUndoCommand {
public:
    void redo() override { exchange(); }
    void undo() override { exchange(); }

protected:
    StancesEdit(ClipDocument& document, std::vector<Stance> stances, const QString& name);

    ClipDocument& m_document;

private:
    void exchange() { m_other = m_document.replaceStances(std::move(m_other)); }
    std::vector<Stance> m_other;
};

} // namespace latemile::ui
