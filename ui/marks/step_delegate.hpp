// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"

#include <QStyledItemDelegate>

namespace latemile::ui {

class MarkingFlow;
class StepModel;
class Thumbnails;

/// A cell of the step table: a small picture with its landmarks, and its state as a sign and a
/// word.
class StepDelegate final : public QStyledItemDelegate {
    Q_OBJECT
public:
    StepDelegate(const MarkingFlow& flow, const StepModel& model, Thumbnails& thumbnails,
                 QObject* parent = nullptr);

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

private:
    void paintPicture(QPainter& painter, const QRect& box, const StepInstant& place) const;
    void paintState(QPainter& painter, const QRect& box, const StepInstant& place,
                    const QPalette& palette) const;

    const MarkingFlow& m_flow;
    const StepModel& m_model;
    Thumbnails& m_thumbnails;
};

} // namespace latemile::ui
