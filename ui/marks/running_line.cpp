// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/running_line.hpp"

#include "core/measures/asked_landmarks.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace latemile::ui {
namespace {

const Reading* readingOf(const Readings& readings, StepNumber step, const std::string& measure)
{
    for (const Reading& reading : readings.readings) {
        if (reading.step == step && reading.measure == measure) {
            return &reading;
        }
    }
    return nullptr;
}

/// As many as two lines beside the step table hold.
constexpr qsizetype mostShown = 5;

/// What cannot be checked yet is no warning: the coach is in the middle of the work.
bool isFound(const Check& check)
{
    return check.value.has_value() || check.state == Check::State::Bad;
}

} // namespace

QString runningLine(const ClipDocument& clip, std::optional<StepNumber> step,
                    const std::vector<std::string>& measures)
{
    const auto& readings = clip.readings();
    if (!readings) {
        return clip.readingsFault();
    }
    if (!step || step->value > static_cast<int>(readings->steps.size())) {
        return {};
    }
    QStringList parts;
    QStringList unconfirmed;
    for (const std::string& id : measures.empty() ? defaultMeasures() : measures) {
        const Measure* measure = readings->own.find(id);
        const Reading* reading = readingOf(*readings, *step, id);
        if (measure != nullptr && reading != nullptr && reading->value) {
            (reading->confirmed ? parts : unconfirmed)
                .append(fromUtf8(measure->name) + u' ' +
                        roundedText(*reading->value, reading->se, *measure));
        }
    }
    const auto more = parts.size() + unconfirmed.size() - mostShown;
    parts.resize(std::min(parts.size(), mostShown));
    unconfirmed.resize(std::min(unconfirmed.size(), mostShown - parts.size()));
    if (!unconfirmed.isEmpty()) {
        unconfirmed.front() = QCoreApplication::translate("RunningLine", "not confirmed: %1")
                                  .arg(unconfirmed.front());
        parts.append(unconfirmed);
    }
    if (more > 0) {
        parts.append(
            QCoreApplication::translate("RunningLine", "%1 more on the Readings page").arg(more));
    }
    const Step& shown = readings->steps[static_cast<std::size_t>(step->value - 1)];
    const QString head = QCoreApplication::translate("RunningLine", "Step %1, %2: ")
                             .arg(step->value)
                             .arg(wordFor(shown.foot));
    return head + (parts.isEmpty() ? QCoreApplication::translate("RunningLine", "no reading yet")
                                   : parts.join(QStringLiteral("  ·  ")));
}

QString markingWarning(const ClipDocument& clip)
{
    if (!clip.readings()) {
        return {};
    }
    QStringList told;
    for (const Check& check : clip.readings()->checks) {
        if ((check.check == "bones" || check.check == "events" || check.check == "cadence") &&
            check.state != Check::State::Good && isFound(check)) {
            told.append(fromUtf8(check.sentence));
        }
    }
    return told.join(u' ');
}

} // namespace latemile::ui
