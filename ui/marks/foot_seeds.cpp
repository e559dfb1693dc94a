// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/foot_seeds.hpp"

namespace latemile::ui {

std::optional<MarkKey> nextFootSeed(const Marking& marking, FrameNumber frame)
{
    for (const auto side : {BodySide::Near, BodySide::Far}) {
        for (const auto landmark : {Landmark::Ankle, Landmark::Heel, Landmark::Toe}) {
            const MarkKey key{frame, side, landmark};
            const Mark* mark = marking.find(key);
            const bool isAnswered = mark != nullptr && mark->origin != Origin::Proposed;
            if (!isAnswered && !marking.unseen.contains(key)) {
                return key;
            }
        }
    }
    return std::nullopt;
}

} // namespace latemile::ui
