// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_toe_off.hpp"

#include "ui/document/commands/move_event.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

#include <optional>

namespace latemile::ui {
namespace {

std::optional<std::size_t> stanceBefore(const ClipDocument& document, Foot foot, FrameNumber first)
{
    const auto& stances = document.marking().stances;
    const Seconds toeOff = document.index().eventTime(first);
    std::optional<std::size_t> last;
    for (std::size_t at = 0; at < stances.size(); ++at) {
        if (stances[at].foot == foot && stances[at].contact < toeOff) {
            last = at;
        }
    }
    return last;
}

std::vector<Stance> withToeOff(const ClipDocument& document, Foot foot, FrameNumber first)
{
    auto stances = document.marking().stances;
    if (const auto at = stanceBefore(document, foot, first)) {
        stances[*at].toeOff = document.index().eventTime(first);
        stances[*at].origin = Origin::Placed;
        stances[*at].se.reset();
    }
    return stances;
}

} // namespace

SetToeOff::SetToeOff(ClipDocument& document, Foot foot, FrameNumber first)
    : StancesEdit(document, withToeOff(document, foot, first),
                  QCoreApplication::translate("Commands", "%1 toe-off, frame %2")
                      .arg(wordFor(foot))
                      .arg(first.value))
{
}

bool SetToeOff::isPossible(const ClipDocument& document, Foot foot, FrameNumber first)
{
    return stanceBefore(document, foot, first).has_value() &&
           arePossible(withToeOff(document, foot, first));
}

} // namespace latemile::ui
