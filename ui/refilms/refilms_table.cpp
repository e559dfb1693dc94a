// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilms_table.hpp"

#include "core/measures/measure.hpp"
#include "core/rounding.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QFont>
#include <QGuiApplication>
#include <QLocale>
#include <QPalette>

#include <algorithm>
#include <utility>

namespace latemile::ui {
namespace {

enum After { Change, Word, Held, AfterColumns };

QString shortDate(const std::string& date)
{
    const QDate day = QDate::fromString(fromUtf8(date), Qt::ISODate);
    return day.isValid() ? QLocale().toString(day, QStringLiteral("d MMM yyyy")) : fromUtf8(date);
}

/// Value and error rounded together, without the unit, which stands in the row's name.
QString bareText(double value, std::optional<double> half, const Measure& measure)
{
    const auto pair = roundedTogether(value, half.value_or(0.0), measure.decimals);
    QString text = fromUtf8(pair.value);
    if (half) {
        text += QStringLiteral(" ± ") + fromUtf8(pair.error);
    }
    return text.replace(u'-', QChar(0x2212));
}

QString changeText(const Course& course, const Measure& measure)
{
    const auto& row = course.sinceLast;
    if (!row || !row->change) {
        return QStringLiteral("–");
    }
    const QString text = bareText(*row->change, row->halfWidth, measure);
    return *row->change > 0 ? u'+' + text : text;
}

QString verdictText(const Course& course)
{
    if (!course.sinceLast) {
        return RefilmsTable::tr("one filming day");
    }
    const Verdict verdict = course.sinceLast->verdict;
    return (verdict == Verdict::ClearChange ? QStringLiteral("● ") : QStringLiteral("○ ")) +
           wordFor(verdict);
}

} // namespace

void RefilmsTable::setRows(std::vector<Row> rows, std::vector<std::string> dates,
                           const OwnMeasures& own)
{
    beginResetModel();
    m_rows = std::move(rows);
    m_dates = std::move(dates);
    m_own = own;
    endResetModel();
}

const Measure& RefilmsTable::measureOf(const Row& row) const
{
    return *m_own.find(row.course.measure);
}

int RefilmsTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int RefilmsTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_dates.size()) + AfterColumns;
}

QString RefilmsTable::dayText(const Row& row, const std::string& date) const
{
    const auto point = std::ranges::find(row.course.points, date, &RefilmPoint::date);
    if (point == row.course.points.end() || !point->mean) {
        return QStringLiteral("–");
    }
    const QString text = bareText(*point->mean, point->halfWidth, measureOf(row));
    // Numbers of another speed stay in sight, but not as if they belonged to the row.
    return point->whyNot.empty() ? text : QStringLiteral("(%1)").arg(text);
}

QString RefilmsTable::cellText(const Row& row, int column) const
{
    const int days = static_cast<int>(m_dates.size());
    if (column < days) {
        return dayText(row, m_dates[static_cast<std::size_t>(column)]);
    }
    switch (column - days) {
    case Change:
        return changeText(row.course, measureOf(row));
    case Word:
        return verdictText(row.course);
    default:
        return row.course.heldSince.empty() ? QStringLiteral("–") : shortDate(row.course.heldSince);
    }
}

QVariant RefilmsTable::data(const QModelIndex& index, int role) const
{
    if (!index.isValid()) {
        return {};
    }
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    const int after = index.column() - static_cast<int>(m_dates.size());
    const bool clear =
        row.course.sinceLast && row.course.sinceLast->verdict == Verdict::ClearChange;
    switch (role) {
    case Qt::DisplayRole:
        return cellText(row, index.column());
    case Qt::ToolTipRole:
        return row.course.sinceLast ? QVariant((fromUtf8(row.course.sinceLast->sentence) + u' ' +
                                                fromUtf8(row.course.sinceLast->reason))
                                                   .toHtmlEscaped())
                                    : QVariant();
    case Qt::TextAlignmentRole:
        return static_cast<int>((after < Word ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    case Qt::FontRole: {
        QFont font;
        font.setBold(clear && (after == Change || after == Word));
        return font;
    }
    case Qt::ForegroundRole: {
        const Tokens tokens = tokensOf(QGuiApplication::palette());
        return after < 0 || clear || after == Held ? tokens.text : tokens.quiet;
    }
    default:
        return {};
    }
}

QVariant RefilmsTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    const int after = section - static_cast<int>(m_dates.size());
    if (role == Qt::TextAlignmentRole) {
        const bool left = orientation == Qt::Vertical || after >= Word;
        return static_cast<int>((left ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    if (orientation == Qt::Vertical) {
        const Row& row = m_rows[static_cast<std::size_t>(section)];
        const Measure& measure = measureOf(row);
        const QString unit = unitText(measure.unit);
        return fromUtf8(measure.name) + QStringLiteral(", ") +
               wordForCondition(row.fatigued ? "fatigued" : "fresh") +
               (unit.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(unit));
    }
    switch (after) {
    case Change:
        return tr("Since last");
    case Word:
        return tr("Verdict");
    case Held:
        return tr("Held since");
    default:
        return shortDate(m_dates[static_cast<std::size_t>(section)]);
    }
}

} // namespace latemile::ui
