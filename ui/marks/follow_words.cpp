// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/follow_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <set>
#include <utility>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("FollowWords", text);
}

std::int64_t lengthOf(const FollowGap& gap)
{
    return gap.last.value - gap.first.value + 1;
}

QString pixels(double sePx)
{
    return QStringLiteral("± %1 px").arg(numberText(sePx, 1));
}

} // namespace

std::vector<FollowGap> toldGaps(const FollowResult& result)
{
    std::vector<FollowGap> told;
    std::ranges::copy_if(result.gaps, std::back_inserter(told),
                         [](const FollowGap& gap) { return gap.kind != FollowGap::Kind::Bridged; });
    std::ranges::stable_sort(told, std::greater{}, lengthOf);
    return told;
}

QString followSummary(const FollowResult& result)
{
    std::set<std::pair<BodySide, Landmark>> landmarks;
    for (const auto& [key, mark] : result.marks) {
        landmarks.emplace(key.side, key.landmark);
    }
    const auto count = [&result](FollowGap::Kind kind) {
        return std::ranges::count(result.gaps, kind, &FollowGap::kind);
    };
    const auto lost = count(FollowGap::Kind::Lost);
    const auto doubtful = count(FollowGap::Kind::Doubtful);
    QStringList told{translated(QT_TRANSLATE_NOOP("FollowWords", "Landmarks followed: %1."))
                         .arg(landmarks.size())};
    if (lost + doubtful > 0) {
        told.append(
            translated(QT_TRANSLATE_NOOP("FollowWords", "Stretches lost: %1, doubtful: %2."))
                .arg(lost)
                .arg(doubtful));
    }
    return told.join(u' ');
}

QString doubtText(const CellDoubt& doubt)
{
    QStringList told{doubt.isDoubtful ? translated(QT_TRANSLATE_NOOP("FollowWords", "doubtful"))
                     : doubt.proposed > 0
                         ? translated(QT_TRANSLATE_NOOP("FollowWords", "proposed"))
                         : translated(QT_TRANSLATE_NOOP("FollowWords", "followed")),
                     pixels(doubt.sePx)};
    if (doubt.missing > 0) {
        told.append(translated(QT_TRANSLATE_NOOP("FollowWords", "%1 missing")).arg(doubt.missing));
    }
    return told.join(QStringLiteral(", "));
}

QString shortDoubtText(const CellDoubt& doubt)
{
    if (doubt.missing > 0) {
        return translated(QT_TRANSLATE_NOOP("FollowWords", "%1 missing")).arg(doubt.missing);
    }
    return doubt.isDoubtful ? QStringLiteral("? ") + pixels(doubt.sePx) : pixels(doubt.sePx);
}

QString wordFor(const MarkKey& key)
{
    const QString word = wordFor(key.landmark);
    return key.side == BodySide::Far
               ? translated(QT_TRANSLATE_NOOP("FollowWords", "far %1")).arg(word)
               : word;
}

} // namespace latemile::ui
