// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/measure_order.hpp"

#include "ui/text/words.hpp"

#include <QSettings>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr auto orderKey = "readings/order";
constexpr auto hiddenKey = "readings/hidden";

} // namespace

MeasureOrder MeasureOrder::remembered()
{
    const QSettings settings;
    const QStringList hidden = settings.value(QLatin1String(hiddenKey)).toStringList();
    MeasureOrder order;
    order.m_order = settings.value(QLatin1String(orderKey)).toStringList();
    order.m_hidden = QSet<QString>(hidden.begin(), hidden.end());
    return order;
}

void MeasureOrder::remember() const
{
    QSettings settings;
    settings.setValue(QLatin1String(orderKey), m_order);
    settings.setValue(QLatin1String(hiddenKey), QStringList(m_hidden.begin(), m_hidden.end()));
}

std::vector<const Measure*> MeasureOrder::all(const OwnMeasures& own) const
{
    auto measures = own.all();
    // A measure the settings do not know yet is newer than they are: it comes last.
    const auto place = [this](const Measure* measure) {
        const auto at = m_order.indexOf(fromUtf8(measure->id));
        return at < 0 ? m_order.size() : at;
    };
    std::ranges::stable_sort(measures, {}, place);
    return measures;
}

std::vector<const Measure*> MeasureOrder::shown(const OwnMeasures& own) const
{
    auto measures = all(own);
    std::erase_if(measures, [this](const Measure* measure) { return isHidden(*measure); });
    return measures;
}

bool MeasureOrder::isHidden(const Measure& measure) const
{
    return m_hidden.contains(fromUtf8(measure.id));
}

void MeasureOrder::setHidden(const QString& id, bool hidden)
{
    if (hidden) {
        m_hidden.insert(id);
    } else {
        m_hidden.remove(id);
    }
}

} // namespace latemile::ui
