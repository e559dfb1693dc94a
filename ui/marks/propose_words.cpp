// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/propose_words.hpp"

#include "core/propose/row_bound.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/propose_work.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <map>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("ProposeWords", text);
}

bool isNear(const Proposals::value_type& entry)
{
    return entry.first.side == BodySide::Near;
}

} // namespace

QString proposeSummary(const ProposeResult& result)
{
    const auto doubtful = std::ranges::count_if(result.proposals, [](const auto& entry) {
        return isNear(entry) && entry.second.doubt != Doubt::None;
    });
    return translated(QT_TRANSLATE_NOOP("ProposeWords",
                                        "Landmarks proposed on %1 frames; doubtful: %2 of %3 "
                                        "points."))
        .arg(result.frames)
        .arg(doubtful)
        .arg(std::ranges::count_if(result.proposals, isNear));
}

QStringList proposalRemarks(const ProposeResult& result)
{
    QStringList remarks;
    for (const std::string& remark : result.remarks) {
        remarks.append(fromUtf8(remark));
    }
    std::map<std::pair<Landmark, Doubt>, int> doubts;
    for (const auto& entry : result.proposals) {
        if (isNear(entry) && entry.second.doubt != Doubt::None) {
            ++doubts[{entry.first.landmark, entry.second.doubt}];
        }
    }
    for (const auto& [what, count] : doubts) {
        remarks.append(translated(QT_TRANSLATE_NOOP("ProposeWords", "%1, on %2 frames: %3."))
                           .arg(capital(wordFor(what.first)))
                           .arg(count)
                           .arg(fromUtf8(wordsFor(what.second))));
    }
    return remarks;
}

QString exchangedText(const ClipDocument& clip, FrameNumber from,
                      const std::optional<FrameNumber>& to)
{
    const QString begin = timeText(clip.index().time(from));
    return to ? translated(QT_TRANSLATE_NOOP("ProposeWords",
                                             "Near and far leg are exchanged from %1 to %2; what "
                                             "you placed stays."))
                    .arg(begin, timeText(clip.index().time(*to)))
              : translated(QT_TRANSLATE_NOOP("ProposeWords",
                                             "Near and far leg are exchanged from %1 to the "
                                             "clip's end; what you placed stays."))
                    .arg(begin);
}

QString rowRefusedText(const MarkKey& key, double sePx, double boundPx, const Keys& keys)
{
    return translated(
               QT_TRANSLATE_NOOP("ProposeWords",
                                 "The %1 is unsure by ± %2 px; a row of proposals is accepted up "
                                 "to ± %3 px. Confirm its cells one by one with %4; one step "
                                 "confirmed whole teaches the others."))
        .arg(wordFor(key), numberText(sePx, 1), numberText(boundPx, 1),
             keys.textOf("marks.accept"));
}

QString eventsRefusedText(Seconds se, Seconds bound, const Keys& keys)
{
    constexpr double msPerSecond = 1000.0;
    return translated(
               QT_TRANSLATE_NOOP("ProposeWords",
                                 "Contact and toe-off of this step are unsure by ± %1 ms; with its "
                                 "cells they are accepted up to ± %2 ms. Look at both first: %3 "
                                 "shows the toe-off, then accepts them."))
        .arg(numberText(msPerSecond * se.count(), 0), numberText(msPerSecond * bound.count(), 0),
             keys.textOf("marks.accept_contact"));
}

} // namespace latemile::ui
