// SPDX-License-Identifier: GPL-3.0-or-later
// The box round the runner that proposing asks for where it finds nobody, or more than one person.
#include "ui/document/clip_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/proposing.hpp"

#include <utility>

namespace latemile::ui {

void Proposing::tellBox(const QString& sentence)
{
    askBox();
    if (!m_asksBox) { // no frame is shown yet
        m_panel.tell(sentence, "doubt");
        return;
    }
    m_panel.tell(sentence + u' ' +
                     tr("Drag it on the picture; by keys, arrows move it, Shift+arrows size it, "
                        "%1 takes it.")
                         .arg(m_keys.textOf("marks.accept")),
                 "doubt");
}

void Proposing::askBox()
{
    if (isUsable() && m_flow.shown() && !isBusy()) {
        m_asksBox = true;
        m_panel.tell(tr("Drag a box round the runner; by keys, arrows move it, Shift+arrows size "
                        "it, %1 takes it.")
                         .arg(m_keys.textOf("marks.accept")),
                     "");
        emit boxAsked(true);
    }
}

/// What was seen without the box, or with another, may be another person.
void Proposing::useBox(const Box& box)
{
    if (!m_asksBox || !isUsable()) {
        return;
    }
    auto& known = m_seen->of(*m_flow.clip());
    known.box = RunnerBox{*m_flow.shown(), box};
    known.path.reset();
    known.found.clear();
    known.isTaught = false;
    known.isOtherRunner = true;
    leaveBox();
    m_isQuiet = false;
    m_teaches = false;
    begin();
}

void Proposing::leaveBox()
{
    if (std::exchange(m_asksBox, false)) {
        m_panel.tell({}, "");
        emit boxAsked(false);
    }
}

} // namespace latemile::ui
