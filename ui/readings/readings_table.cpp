// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/readings_table.hpp"

#include "core/rounding.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QFont>
#include <QGuiApplication>
#include <QPalette>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

enum MeanColumn { LeftMean, RightMean, Against, Mean };

std::optional<Foot> footOfColumn(int column)
{
    return column == LeftMean ? std::optional(Foot::Left)
                              : (column == RightMean ? std::optional(Foot::Right) : std::nullopt);
}

QString withoutUnit(double value, double error, const Measure& measure)
{
    const RoundedPair pair = roundedTogether(value, error, measure.decimals);
    return withTrueMinus(fromUtf8(pair.value) + QStringLiteral(" ± ") + fromUtf8(pair.error));
}

/// The one measure that names a class: which part of the foot lands first.
QString strikeText(double strike)
{
    return strike > 0.5 ? ReadingsTable::tr("heel")
                        : (strike < -0.5 ? ReadingsTable::tr("fore") : ReadingsTable::tr("mid"));
}

} // namespace

ReadingsTable::ReadingsTable(QObject* parent)
    : QAbstractTableModel(parent), m_order(MeasureOrder::remembered())
{
}

void ReadingsTable::setReadings(const std::optional<Readings>& readings)
{
    beginResetModel();
    m_readings = readings;
    chooseRows();
    endResetModel();
}

void ReadingsTable::setOrder(const MeasureOrder& order)
{
    m_order = order;
    m_order.remember();
    beginResetModel();
    chooseRows();
    endResetModel();
}

void ReadingsTable::chooseRows()
{
    m_rows.clear();
    if (!m_readings) {
        return;
    }
    for (const Measure* measure : m_order.shown(m_readings->own)) {
        if (std::ranges::any_of(m_readings->readings, [&](const Reading& reading) {
                return reading.measure == measure->id && reading.value;
            })) {
            m_rows.push_back(measure);
        }
    }
}

const Measure* ReadingsTable::measureAt(int row) const
{
    return row >= 0 && row < rowCount() ? m_rows[static_cast<std::size_t>(row)] : nullptr;
}

const Reading* ReadingsTable::readingAt(const QModelIndex& index) const
{
    const Measure* measure = measureAt(index.row());
    if (measure == nullptr || index.column() < meanColumns) {
        return nullptr;
    }
    const StepNumber step{index.column() - meanColumns + 1};
    const auto found = std::ranges::find_if(m_readings->readings, [&](const Reading& reading) {
        return reading.measure == measure->id && reading.step == step;
    });
    return found == m_readings->readings.end() ? nullptr : &*found;
}

const Summary* ReadingsTable::summaryAt(const QModelIndex& index) const
{
    const Measure* measure = measureAt(index.row());
    if (measure == nullptr || index.column() >= meanColumns || index.column() == Against) {
        return nullptr;
    }
    const auto foot = footOfColumn(index.column());
    const auto found = std::ranges::find_if(m_readings->summary, [&](const Summary& summary) {
        return summary.measure == measure->id && summary.foot == foot && summary.n > 0;
    });
    return found == m_readings->summary.end() ? nullptr : &*found;
}

const Reading* ReadingsTable::nearestTo(const Summary& mean) const
{
    const auto distance = [&mean](const Reading& reading) {
        return std::abs(*reading.value - mean.mean);
    };
    const Reading* nearest = nullptr;
    for (const Reading& reading : m_readings->readings) {
        const bool ofMean = reading.measure == mean.measure && reading.step && reading.value &&
                            reading.confirmed && (!mean.foot || reading.foot == mean.foot);
        if (ofMean && (nearest == nullptr || distance(reading) < distance(*nearest))) {
            nearest = &reading;
        }
    }
    return nearest;
}

std::optional<LeftRight> ReadingsTable::leftRightAt(const QModelIndex& index) const
{
    const Measure* measure = measureAt(index.row());
    return measure != nullptr && index.column() == Against ? leftAgainstRight(*m_readings, *measure)
                                                           : std::nullopt;
}

int ReadingsTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int ReadingsTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() || !m_readings
               ? 0
               : meanColumns + static_cast<int>(m_readings->steps.size());
}

QString ReadingsTable::cellText(const QModelIndex& index) const
{
    const Measure& measure = *measureAt(index.row());
    if (const Summary* summary = summaryAt(index)) {
        return withoutUnit(summary->mean, summary->se, measure);
    }
    if (const auto against = leftRightAt(index)) {
        return withoutUnit(against->difference, against->halfWidth, measure);
    }
    const Reading* reading = readingAt(index);
    if (reading == nullptr || !reading->value) {
        return {};
    }
    return measure.isClass
               ? strikeText(*reading->value)
               : withTrueMinus(fromUtf8(
                     roundedTogether(*reading->value, reading->se.value_or(0.0), measure.decimals)
                         .value));
}

QString ReadingsTable::told(const QModelIndex& index) const
{
    const Measure& measure = *measureAt(index.row());
    if (const Summary* summary = summaryAt(index)) {
        return tr("%1: mean of %2 confirmed, %3")
            .arg(fromUtf8(measure.name))
            .arg(summary->n)
            .arg(roundedText(summary->mean, summary->se, measure));
    }
    if (const auto against = leftRightAt(index)) {
        return tr("%1: left less right is %2 (95 %), %3")
            .arg(fromUtf8(measure.name),
                 roundedText(against->difference, against->halfWidth, measure),
                 wordFor(against->verdict));
    }
    const Reading* reading = readingAt(index);
    if (reading == nullptr) {
        return {};
    }
    return reading->value ? roundedText(*reading->value, reading->se, measure)
                          : fromUtf8(reading->reason);
}

QVariant ReadingsTable::data(const QModelIndex& index, int role) const
{
    if (!index.isValid()) {
        return {};
    }
    switch (role) {
    case Qt::DisplayRole:
        return cellText(index);
    case Qt::ToolTipRole:
    case Qt::AccessibleDescriptionRole:
        return told(index).toHtmlEscaped();
    case Qt::TextAlignmentRole:
        return static_cast<int>(Qt::AlignRight | Qt::AlignVCenter);
    case Qt::FontRole: {
        const Reading* reading = readingAt(index);
        QFont font;
        const auto against = leftRightAt(index);
        font.setItalic(reading != nullptr && !reading->confirmed);
        font.setBold(against && against->verdict == Verdict::ClearChange);
        return font;
    }
    case Qt::ForegroundRole: {
        const Reading* reading = readingAt(index);
        const Tokens tokens = tokensOf(QGuiApplication::palette());
        return reading != nullptr && !reading->confirmed ? tokens.quiet : tokens.text;
    }
    default:
        return {};
    }
}

QVariant ReadingsTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (role == Qt::TextAlignmentRole) {
        const auto side = orientation == Qt::Vertical ? Qt::AlignLeft : Qt::AlignRight;
        return static_cast<int>(side | Qt::AlignVCenter);
    }
    if (orientation == Qt::Vertical) {
        const Measure* measure = measureAt(section);
        if (measure == nullptr) {
            return {};
        }
        if (role == Qt::ToolTipRole) {
            return fromUtf8(measure->meaning).toHtmlEscaped();
        }
        const QString unit = unitText(measure->unit);
        return role == Qt::DisplayRole
                   ? fromUtf8(measure->name) + (unit.isEmpty() ? QString() : u' ' + unit)
                   : QVariant();
    }
    if (role != Qt::DisplayRole || !m_readings) {
        return {};
    }
    if (section < meanColumns) {
        const QStringList names{tr("Left mean"), tr("Right mean"), tr("Left − right"), tr("Mean")};
        return names[section];
    }
    const auto at = static_cast<std::size_t>(section - meanColumns);
    if (at >= m_readings->steps.size()) {
        return {};
    }
    return m_readings->steps[at].foot == Foot::Left ? tr("%1 L").arg(at + 1)
                                                    : tr("%1 R").arg(at + 1);
}

} // namespace latemile::ui
