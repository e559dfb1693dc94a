// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/step_model.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/text/words.hpp"

#include <algorithm>

namespace latemile::ui {

QString stateText(const MarkingFlow& flow, const StepInstant& place)
{
    if (!flow.frameOf(place)) {
        return StepModel::tr("not marked");
    }
    if (const auto odd = flow.oddBonesOn(*flow.frameOf(place)); !odd.empty()) {
        return StepModel::tr("look at %1").arg(oddBoneWord(odd.front()));
    }
    const CellWork work = flow.work(place);
    if (const CellDoubt doubt = flow.doubt(place); doubt.guessed() > 0) {
        return doubtText(doubt);
    }
    switch (work.state) {
    case CellState::Confirmed:
        return work.asked == 0 ? StepModel::tr("nothing to mark") : StepModel::tr("confirmed");
    case CellState::Proposed:
        return StepModel::tr("proposed");
    case CellState::Begun:
        return StepModel::tr("%1 of %2 placed").arg(work.done).arg(work.asked);
    case CellState::Empty:
        break;
    }
    return StepModel::tr("empty");
}

StepModel::StepModel(MarkingFlow& flow, QObject* parent) : QAbstractTableModel(parent), m_flow(flow)
{
    renew();
}

void StepModel::renew()
{
    beginResetModel();
    m_columns = {Instant::Contact, Instant::MidStance, Instant::ToeOff};
    if (!m_flow.plan().at(Instant::MidSwing, true).empty()) {
        m_columns.push_back(Instant::MidSwing);
    }
    m_rows = m_flow.clip() == nullptr ? 0 : static_cast<int>(m_flow.clip()->steps().size());
    endResetModel();
}

void StepModel::refresh()
{
    if (m_rows > 0) {
        emit dataChanged(index(0, 0), index(m_rows - 1, columnCount() - 1));
    }
}

int StepModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : m_rows;
}

int StepModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_columns.size());
}

StepInstant StepModel::placeOf(const QModelIndex& index) const
{
    return {StepNumber{index.row() + 1}, m_columns[static_cast<std::size_t>(index.column())]};
}

QModelIndex StepModel::indexOf(const StepInstant& place) const
{
    const auto column = std::ranges::find(m_columns, place.instant);
    if (column == m_columns.end() || place.step.value < 1 || place.step.value > m_rows) {
        return {};
    }
    return index(place.step.value - 1, static_cast<int>(std::distance(m_columns.begin(), column)));
}

QString StepModel::cellText(const StepInstant& place) const
{
    return tr("step %1, %2: %3")
        .arg(place.step.value)
        .arg(wordFor(place.instant), stateText(m_flow, place));
}

QVariant StepModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= m_rows) {
        return {};
    }
    if (role == Qt::AccessibleTextRole || role == Qt::ToolTipRole) {
        return cellText(placeOf(index));
    }
    return {};
}

QVariant StepModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (role == Qt::TextAlignmentRole) {
        return static_cast<int>(Qt::AlignLeft | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole || m_flow.clip() == nullptr) {
        return {};
    }
    if (orientation == Qt::Horizontal) {
        return capital(wordFor(m_columns[static_cast<std::size_t>(section)]));
    }
    const auto& steps = m_flow.clip()->steps();
    if (section >= static_cast<int>(steps.size())) {
        return {};
    }
    const Step& step = steps[static_cast<std::size_t>(section)];
    return QStringLiteral("%1\n%2").arg(step.number.value).arg(wordFor(step.foot));
}

} // namespace latemile::ui
