// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/miss_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <cmath>

namespace latemile::ui {
namespace {

QString eventText(const EventMiss& miss)
{
    const double milliseconds = 1000.0 * miss.late.count();
    const QString amount = numberText(std::abs(milliseconds), 0);
    const QString name = QStringLiteral("%1 %2").arg(
        capital(wordFor(miss.foot)), wordFor(miss.isToeOff ? Instant::ToeOff : Instant::Contact));
    if (amount == QStringLiteral("0")) {
        return QCoreApplication::translate("Practice", "%1 on time").arg(name);
    }
    return (milliseconds > 0 ? QCoreApplication::translate("Practice", "%1 %2 ms late")
                             : QCoreApplication::translate("Practice", "%1 %2 ms early"))
        .arg(name, amount);
}

} // namespace

QString marksText(const std::vector<MarkMiss>& misses)
{
    if (misses.empty()) {
        return QCoreApplication::translate("Practice", "No mark on this frame yet.");
    }
    QStringList told;
    for (const MarkMiss& miss : misses) {
        told.append(QCoreApplication::translate("Practice", "%1 %2 px, %3 cm")
                        .arg(capital(wordFor(miss.landmark)), numberText(miss.pixels, 1),
                             numberText(miss.centimetres, 1)));
    }
    return told.join(QStringLiteral("  ·  "));
}

QString eventsText(const std::vector<EventMiss>& misses)
{
    if (misses.empty()) {
        return QCoreApplication::translate("Practice", "No contact or toe-off marked yet.");
    }
    QStringList told;
    for (const EventMiss& miss : misses) {
        told.append(eventText(miss));
    }
    return told.join(QStringLiteral("  ·  "));
}

} // namespace latemile::ui
