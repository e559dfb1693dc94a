// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/clip_state.hpp"

#include "ui/document/clip_document.hpp"

#include <algorithm>
#include <iterator>
#include <vector>

namespace latemile::ui {
namespace {

void bringMarks(ClipDocument& document, const Marking& state)
{
    std::map<MarkKey, std::optional<Mark>> changes;
    for (const auto& [key, mark] : state.marks) {
        if (const Mark* there = document.marking().find(key); there == nullptr || *there != mark) {
            changes.emplace(key, mark);
        }
    }
    for (const auto& [key, mark] : document.marking().marks) {
        if (state.find(key) == nullptr) {
            changes.emplace(key, std::nullopt);
        }
    }
    document.exchangeMarks(changes);
}

void bringUnseen(ClipDocument& document, const Marking& state)
{
    std::vector<MarkKey> differ;
    std::ranges::set_symmetric_difference(document.marking().unseen, state.unseen,
                                          std::back_inserter(differ));
    for (const MarkKey& key : differ) {
        document.replaceUnseen(key, state.unseen.contains(key));
    }
}

} // namespace

ClipDetails detailsOf(const SessionClip& clip)
{
    return {.condition = clip.condition,
            .minute = clip.minute,
            .inclinePercent = clip.inclinePercent,
            .shoes = clip.shoes,
            .exertion = clip.exertion,
            .pain = clip.pain};
}

void bring(ClipDocument& document, const SessionClip& state)
{
    if (!(document.details() == detailsOf(state))) {
        document.replaceDetails(detailsOf(state));
    }
    if (!(document.scene() == state.scene)) {
        document.replaceScene(state.scene);
    }
    if (document.marking().stances != state.marking.stances) {
        document.replaceStances(state.marking.stances);
    }
    bringUnseen(document, state.marking);
    bringMarks(document, state.marking);
}

} // namespace latemile::ui
