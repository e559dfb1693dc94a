// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/set_contact.hpp"

#include "ui/document/commands/move_event.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace latemile::ui {
namespace {

/// Two contacts of one foot are never this near: the second is a better word on the first.
constexpr Seconds sameContact{0.15};

std::vector<Stance> withContact(const ClipDocument& document, Foot foot, FrameNumber first)
{
    auto stances = document.marking().stances;
    const Seconds contact = document.index().eventTime(first);
    const auto meant = std::ranges::find_if(stances, [&](const Stance& stance) {
        const Seconds away = contact - stance.contact;
        const bool near = std::chrono::abs(away) < sameContact;
        const bool inside = away >= Seconds{} && stance.toeOff && contact < *stance.toeOff;
        return stance.foot == foot && (near || inside);
    });
    if (meant == stances.end()) {
        stances.push_back({.foot = foot, .contact = contact, .toeOff = {}, .origin = {}, .se = {}});
        return stances;
    }
    meant->contact = contact;
    if (meant->toeOff && *meant->toeOff <= contact) {
        meant->toeOff.reset();
    }
    meant->origin = Origin::Placed;
    meant->se.reset();
    return stances;
}

} // namespace

SetContact::SetContact(ClipDocument& document, Foot foot, FrameNumber first)
    : StancesEdit(document, withContact(document, foot, first),
                  QCoreApplication::translate("Commands", "%1 contact, frame %2")
                      .arg(wordFor(foot))
                      .arg(first.value))
{
}

bool SetContact::isPossible(const ClipDocument& document, Foot foot, FrameNumber first)
{
    return arePossible(withContact(document, foot, first));
}

} // namespace latemile::ui
