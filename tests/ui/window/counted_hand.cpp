// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/counted_hand.hpp"

#include "tests/ui/window/marking_hands.hpp"

namespace latemile::ui {

void setRight(MarksPage& page, Hand& hand, const nlohmann::json& truth, const StepInstant& place)
{
    const auto frame = page.flow().frameOf(place);
    for (const Landmark landmark : frame ? page.flow().asked(place) : std::vector<Landmark>{}) {
        const MarkKey key{*frame, BodySide::Near, landmark};
        const PixelPoint there = truePoint(truth, key);
        const Mark* mark = page.flow().clip()->marking().find(key);
        constexpr double pixelsPerCm = 3.16; // of the near hip, from the truth of the clip
        const double seen = 2 * defaultClickError(landmark) * pixelsPerCm;
        const bool isOff = mark != nullptr && mark->origin != Origin::Placed &&
                           std::hypot(mark->at.u - there.u, mark->at.v - there.v) > seen;
        if (mark != nullptr && !isOff) {
            continue;
        }
        if (page.flow().place() != place) {
            hand.chooseCell(place);
        }
        waitForPicture(page);
        if (mark != nullptr) {
            hand.drag(mark->at, there);
        } else {
            hand.click(there);
        }
    }
}

} // namespace latemile::ui
