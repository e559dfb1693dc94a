// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/comparison_table.hpp"

#include "core/measures/measure.hpp"
#include "core/rounding.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QFont>
#include <QGuiApplication>
#include <QPalette>

#include <algorithm>
#include <array>
#include <utility>

namespace latemile::ui {
namespace {

constexpr int columnsOfOther = 3; ///< mean, change, verdict

QString dash()
{
    return QStringLiteral("–");
}

QString sideText(const SideOfRow& side, const Measure& measure)
{
    return side.mean
               ? ComparisonTable::tr("%1, n %2").arg(valueText(*side.mean, measure)).arg(side.n)
               : dash();
}

QString changeText(const ComparisonRow& row, const Measure& measure)
{
    return row.change ? (*row.change > 0 ? QStringLiteral("+") : QString()) +
                            roundedText(*row.change, row.halfWidth, measure)
                      : dash();
}

QString verdictText(const ComparisonRow& row)
{
    return (row.verdict == Verdict::ClearChange ? QStringLiteral("● ") : QStringLiteral("○ ")) +
           wordFor(row.verdict);
}

/// The change or why there is none, and what is known besides.
QString wordsOf(const ComparisonRow& row)
{
    QStringList told{fromUtf8(row.reason.empty() ? row.sentence : row.reason)};
    if (!row.usual.empty()) {
        told.append(fromUtf8(row.usual));
    }
    if (row.speedEstimate) {
        told.append(fromUtf8(row.speedEstimate->sentence));
    }
    return told.join(u' ');
}

bool isClear(const std::optional<ComparisonRow>& row)
{
    return row && row->verdict == Verdict::ClearChange;
}

bool hasChange(const ComparisonTable::Row& row)
{
    return std::ranges::any_of(row.against, [](const auto& one) { return one && one->change; });
}

} // namespace

void ComparisonTable::setComparisons(std::vector<Comparison> comparisons, const QStringList& names,
                                     const std::vector<std::string>& measures)
{
    beginResetModel();
    m_names = names;
    m_rows.clear();
    m_own = {};
    for (std::size_t at = 0; at < comparisons.size(); ++at) {
        if (!comparisons[at].own.table().empty()) {
            m_own = comparisons[at].own; // the same in all: one library's
        }
        for (ComparisonRow& one : comparisons[at].rows) {
            if (!measures.empty() && std::ranges::find(measures, one.measure) == measures.end()) {
                continue;
            }
            auto row = std::ranges::find_if(m_rows, [&](const Row& known) {
                return known.measure == one.measure && known.foot == one.foot;
            });
            if (row == m_rows.end()) {
                row = m_rows.insert(row, {one.measure, one.foot, {}});
                row->against.resize(comparisons.size());
            }
            row->against[at] = std::move(one);
        }
    }
    // What could be compared first; the rest stays in sight with its reason.
    std::ranges::stable_partition(m_rows, hasChange);
    endResetModel();
}

int ComparisonTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int ComparisonTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() || m_names.size() < 2
               ? 0
               : 2 + columnsOfOther * (static_cast<int>(m_names.size()) - 1);
}

ComparisonTable::Column ComparisonTable::columnAt(int section) const
{
    if (section == 0) {
        return {Column::Kind::FirstMean, 0};
    }
    if (section == wordsColumn()) {
        return {Column::Kind::Words, 0};
    }
    constexpr std::array kinds{Column::Kind::OtherMean, Column::Kind::Change,
                               Column::Kind::Verdict};
    const int at = section - 1;
    return {kinds[static_cast<std::size_t>(at % columnsOfOther)],
            static_cast<std::size_t>(at / columnsOfOther)};
}

QString ComparisonTable::words(const Row& row) const
{
    QStringList told;
    for (std::size_t at = 0; at < row.against.size(); ++at) {
        if (const auto& one = row.against[at]) {
            told.append(row.against.size() == 1 ? wordsOf(*one)
                                                : m_names.at(static_cast<qsizetype>(at) + 1) +
                                                      QStringLiteral(": ") + wordsOf(*one));
        }
    }
    return told.join(u'\n');
}

QString ComparisonTable::cellText(const Row& row, const Column& column) const
{
    const Measure* measure = m_own.find(row.measure);
    if (column.kind == Column::Kind::Words) {
        return words(row);
    }
    if (column.kind == Column::Kind::FirstMean) {
        const auto known =
            std::ranges::find_if(row.against, &std::optional<ComparisonRow>::has_value);
        return known == row.against.end() ? dash() : sideText((*known)->fresh, *measure);
    }
    const auto& one = row.against[column.comparison];
    if (!one) {
        return dash();
    }
    switch (column.kind) {
    case Column::Kind::OtherMean:
        return sideText(one->fatigued, *measure);
    case Column::Kind::Change:
        return changeText(*one, *measure);
    default:
        return verdictText(*one);
    }
}

QString ComparisonTable::rowName(const Row& row) const
{
    const Measure* measure = m_own.find(row.measure);
    const QString name = measure == nullptr ? fromUtf8(row.measure) : fromUtf8(measure->name);
    return row.foot ? name + QStringLiteral(", ") + wordFor(*row.foot) : name;
}

QVariant ComparisonTable::data(const QModelIndex& index, int role) const
{
    if (!index.isValid()) {
        return {};
    }
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    const Column column = columnAt(index.column());
    const bool text = column.kind == Column::Kind::Words;
    const bool left = text || column.kind == Column::Kind::Verdict;
    const bool clear = text || column.kind == Column::Kind::FirstMean
                           ? std::ranges::any_of(row.against, isClear)
                           : isClear(row.against[column.comparison]);
    const Tokens tokens = tokensOf(QGuiApplication::palette());
    switch (role) {
    case Qt::DisplayRole:
        return m_own.find(row.measure) == nullptr ? QString() : cellText(row, column);
    case Qt::TextAlignmentRole:
        return static_cast<int>((left ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    case Qt::FontRole: {
        QFont font;
        font.setBold(clear &&
                     (column.kind == Column::Kind::Verdict || column.kind == Column::Kind::Change));
        return font;
    }
    case Qt::ForegroundRole:
        return clear ? tokens.text : tokens.quiet;
    default:
        return {};
    }
}

QVariant ComparisonTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation == Qt::Vertical) {
        if (role == Qt::TextAlignmentRole) {
            return static_cast<int>(Qt::AlignLeft | Qt::AlignVCenter);
        }
        return role == Qt::DisplayRole && section < rowCount()
                   ? QVariant(rowName(m_rows[static_cast<std::size_t>(section)]))
                   : QVariant();
    }
    if (section < 0 || section >= columnCount()) {
        return {};
    }
    const Column column = columnAt(section);
    if (role == Qt::TextAlignmentRole) {
        const bool left =
            column.kind == Column::Kind::Words || column.kind == Column::Kind::Verdict;
        return static_cast<int>((left ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    switch (column.kind) {
    case Column::Kind::FirstMean:
        return m_names.front();
    case Column::Kind::OtherMean:
        return m_names.at(static_cast<qsizetype>(column.comparison) + 1);
    case Column::Kind::Change:
        return tr("Change, 95 %");
    case Column::Kind::Verdict:
        return tr("Verdict");
    case Column::Kind::Words:
        break;
    }
    return tr("In words");
}

} // namespace latemile::ui
