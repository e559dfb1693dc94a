// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own_measures/own_trial.hpp"

#include "core/measures/step_readings.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("OwnTrial", text);
}

/// By the coach's marks alone where they give one, as on the readings page.
std::optional<Reading> firstReadingOf(const PreparedTwice& clip, const Measure& measure)
{
    if (clip.confirmed) {
        auto reading = firstReading(*clip.confirmed, measure);
        if (reading && reading->value) {
            const auto at = static_cast<std::size_t>(reading->step->value - 1);
            reading->step = clip.all.steps[clip.places[at]].number;
            return reading;
        }
    }
    return firstReading(clip.all, measure);
}

} // namespace

OwnTrial::OwnTrial(const ClipDocument* clip)
{
    if (clip == nullptr || !clip->isOpen()) {
        m_whyNot = translated(QT_TRANSLATE_NOOP(
            "OwnTrial", "The formula is sound. With a marked clip open, its value stands here."));
        return;
    }
    auto prepared = prepareTwice(clip->marked());
    if (prepared) {
        m_clip = std::move(*prepared);
    } else {
        m_whyNot = fromUtf8(prepared.error().sentence);
    }
}

QString OwnTrial::told(const OwnMeasure& own) const
{
    const auto made = OwnMeasures::from({own});
    if (!m_clip || !made) {
        return m_clip ? fromUtf8(made.error().sentence) : m_whyNot;
    }
    const Measure& measure = made->table().front();
    const auto reading = firstReadingOf(*m_clip, measure);
    if (!reading || !reading->value) {
        return translated(QT_TRANSLATE_NOOP("OwnTrial",
                                            "The formula is sound. No value on this clip: %1."))
            .arg(reading ? fromUtf8(reading->reason)
                         : translated(QT_TRANSLATE_NOOP("OwnTrial",
                                                        "no step of the near foot is marked")));
    }
    const QString told =
        translated(QT_TRANSLATE_NOOP("OwnTrial", "Step %1 of this clip: %2, read at %3."))
            .arg(reading->step->value)
            .arg(roundedText(*reading->value, reading->se, measure),
                 fromUtf8(measure.instantWords));
    return reading->reason.empty() ? told : told + u' ' + capital(fromUtf8(reading->reason)) + u'.';
}

} // namespace latemile::ui
