// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/commands/follow_marks.hpp"

#include <QCoreApplication>

#include <utility>

namespace latemile::ui {

FollowMarks::FollowMarks(ClipDocument& document, const std::map<MarkKey, Mark>& followed)
    : MarksEdit(document, changesFor(document, followed),
                QCoreApplication::translate("Commands", "follow marks"))
{
}

MarksEdit::Changes FollowMarks::changesFor(const ClipDocument& document,
                                           const std::map<MarkKey, Mark>& followed)
{
    std::set<std::pair<BodySide, Landmark>> landmarks;
    for (const auto& [key, mark] : followed) {
        landmarks.emplace(key.side, key.landmark);
    }
    const Marking& marking = document.marking();
    Changes changes;
    for (const auto& [key, mark] : marking.marks) {
        if (mark.origin == Origin::Followed && landmarks.contains({key.side, key.landmark})) {
            changes[key] = std::nullopt;
        }
    }
    for (const auto& [key, mark] : followed) {
        const Mark* there = marking.find(key);
        const bool placed = there != nullptr && there->origin == Origin::Placed;
        if (!placed && !marking.unseen.contains(key)) {
            changes[key] = mark;
        }
    }
    std::erase_if(changes, [&marking](const auto& change) {
        const Mark* there = marking.find(change.first);
        return there != nullptr && change.second == *there;
    });
    return changes;
}

} // namespace latemile::ui
