// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/comparison_table.hpp"

#include "core/compare/rounding.hpp"
#include "core/measures/measure.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QFont>
#include <QGuiApplication>
#include <QPalette>

#include <utility>

namespace latemile::ui {
namespace {

enum Column { Fresh, Fatigued, Change, Word, Why, Columns };

QString sideText(const SideOfRow& side, const Measure& measure)
{
    if (!side.mean) {
        return QStringLiteral("–");
    }
    return ComparisonTable::tr("%1, n %2").arg(valueText(*side.mean, measure)).arg(side.n);
}

QString changeText(const ComparisonRow& row, const Measure& measure)
{
    if (!row.change) {
        return QStringLiteral("–");
    }
    const auto pair = roundedTogether(*row.change, row.halfWidth.value_or(0.0), measure.decimals);
    QString text = fromUtf8(pair.value);
    text = (*row.change > 0 ? QStringLiteral("+") : QString()) + text;
    if (row.halfWidth) {
        text += QStringLiteral(" ± ") + fromUtf8(pair.error);
    }
    const bool close = measure.unit == Unit::Degree || measure.unit == Unit::None;
    return text.replace(u'-', QChar(0x2212)) + (close ? QString() : QStringLiteral(" ")) +
           unitText(measure.unit);
}

QString cellText(const ComparisonRow& row, const Measure& measure, int column)
{
    switch (column) {
    case Fresh:
        return sideText(row.fresh, measure);
    case Fatigued:
        return sideText(row.fatigued, measure);
    case Change:
        return changeText(row, measure);
    case Word:
        return (row.verdict == Verdict::ClearChange ? QStringLiteral("● ") : QStringLiteral("○ ")) +
               wordFor(row.verdict);
    case Why:
        return row.reason.empty() ? fromUtf8(row.sentence) : fromUtf8(row.reason);
    default:
        return {};
    }
}

} // namespace

void ComparisonTable::setComparison(Comparison comparison)
{
    beginResetModel();
    m_comparison = std::move(comparison);
    endResetModel();
}

int ComparisonTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_comparison.rows.size());
}

int ComparisonTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : Columns;
}

QVariant ComparisonTable::data(const QModelIndex& index, int role) const
{
    if (!index.isValid()) {
        return {};
    }
    const ComparisonRow& row = m_comparison.rows[static_cast<std::size_t>(index.row())];
    const Measure* measure = findMeasure(row.measure);
    if (measure == nullptr) {
        return {};
    }
    const Tokens tokens = tokensOf(QGuiApplication::palette());
    switch (role) {
    case Qt::DisplayRole:
        return cellText(row, *measure, index.column());
    case Qt::ToolTipRole:
        return (fromUtf8(row.sentence) + u' ' + fromUtf8(row.reason)).toHtmlEscaped();
    case Qt::TextAlignmentRole:
        return static_cast<int>((index.column() < Word ? Qt::AlignRight : Qt::AlignLeft) |
                                Qt::AlignVCenter);
    case Qt::FontRole: {
        QFont font;
        font.setBold(row.verdict == Verdict::ClearChange &&
                     (index.column() == Word || index.column() == Change));
        return font;
    }
    case Qt::ForegroundRole:
        return row.verdict == Verdict::ClearChange ? tokens.text : tokens.quiet;
    default:
        return {};
    }
}

QVariant ComparisonTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation == Qt::Vertical) {
        if (role != Qt::DisplayRole || section >= rowCount()) {
            return role == Qt::TextAlignmentRole
                       ? QVariant(static_cast<int>(Qt::AlignLeft | Qt::AlignVCenter))
                       : QVariant();
        }
        const ComparisonRow& row = m_comparison.rows[static_cast<std::size_t>(section)];
        const Measure* measure = findMeasure(row.measure);
        const QString name = measure == nullptr ? fromUtf8(row.measure) : fromUtf8(measure->name);
        return row.foot ? name + QStringLiteral(", ") + wordFor(*row.foot) : name;
    }
    if (role == Qt::TextAlignmentRole) {
        return static_cast<int>((section < Word ? Qt::AlignRight : Qt::AlignLeft) |
                                Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
    case Fresh:
        return tr("Fresh");
    case Fatigued:
        return tr("Fatigued");
    case Change:
        return tr("Change, 95 %");
    case Word:
        return tr("Verdict");
    case Why:
        return tr("In words");
    default:
        return {};
    }
}

} // namespace latemile::ui
