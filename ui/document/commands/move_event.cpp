// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/move_event.hpp"

#include "core/marks/marking_faults.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace latemile::ui {
namespace {

std::vector<Stance> moved(const ClipDocument& document, std::size_t at, bool toeOff,
                          FrameNumber first)
{
    auto stances = document.marking().stances;
    const Seconds event = document.index().eventTime(first);
    if (toeOff) {
        stances[at].toeOff = event;
    } else {
        stances[at].contact = event;
    }
    stances[at].origin = Origin::Placed;
    stances[at].se.reset();
    return stances;
}

} // namespace

bool arePossible(const std::vector<Stance>& stances)
{
    auto ordered = stances;
    std::ranges::stable_sort(ordered, {}, &Stance::contact);
    const Stance* last[2] = {nullptr, nullptr};
    for (const Stance& stance : ordered) {
        const Stance*& before = last[stance.foot == Foot::Left ? 0 : 1];
        if (faultOf(stance) || (before != nullptr && faultBetween(*before, stance))) {
            return false;
        }
        before = &stance;
    }
    return true;
}

MoveEvent::MoveEvent(ClipDocument& document, std::size_t at, bool toeOff, FrameNumber first)
    : StancesEdit(document, moved(document, at, toeOff, first),
                  QCoreApplication::translate("Commands", "move %1, step %2")
                      .arg(wordFor(toeOff ? Instant::ToeOff : Instant::Contact))
                      .arg(at + 1))
{
}

bool MoveEvent::isPossible(const ClipDocument& document, std::size_t at, bool toeOff,
                           FrameNumber first)
{
    return arePossible(moved(document, at, toeOff, first));
}

} // namespace latemile::ui
