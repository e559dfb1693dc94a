// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/place_name.hpp"

#include "core/marks/steps.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

namespace latemile::ui {

std::optional<StepInstant> instantAt(const ClipDocument& document, FrameNumber frame)
{
    for (const Step& step : document.steps()) {
        for (const auto instant :
             {Instant::Contact, Instant::MidStance, Instant::ToeOff, Instant::MidSwing}) {
            if (frameOf(step, instant, document.index()) == frame) {
                return StepInstant{step.number, instant};
            }
        }
    }
    return std::nullopt;
}

QString placeName(const ClipDocument& document, FrameNumber frame)
{
    if (const auto place = instantAt(document, frame)) {
        return QCoreApplication::translate("PlaceName", "step %1 %2")
            .arg(place->step.value)
            .arg(wordFor(place->instant));
    }
    return QCoreApplication::translate("PlaceName", "frame %1").arg(frame.value);
}

} // namespace latemile::ui
