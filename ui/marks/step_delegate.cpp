// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/step_delegate.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/marks/follow_words.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/marks/step_model.hpp"
#include "ui/marks/thumbnails.hpp"
#include "ui/picture/athlete_part.hpp"
#include "ui/picture/ink.hpp"
#include "ui/theme/tokens.hpp"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <optional>

namespace latemile::ui {
namespace {

constexpr int pictureHeight = 8 * gridStep;
/// Of the picture's height: a runner fills about so much of it.
constexpr double shownShare = 0.8;
constexpr int stateHeight = 2 * gridStep;
constexpr int pad = gridStep / 2;

/// Filled with a tick: confirmed. Half: begun. Grey dot: proposed. Hollow: empty.
void paintSign(QPainter& painter, QPointF centre, CellState state, const Tokens& tokens)
{
    const double r = 5;
    painter.setBrush(Qt::NoBrush);
    switch (state) {
    case CellState::Confirmed:
        painter.setPen(QPen(tokens.good, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolyline(
            QPolygonF{centre + QPointF(-4, 0), centre + QPointF(-1, 3), centre + QPointF(4, -4)});
        return;
    case CellState::Proposed:
        painter.setPen(Qt::NoPen);
        painter.setBrush(tokens.proposal);
        painter.drawEllipse(centre, 3.5, 3.5);
        return;
    case CellState::Begun:
        painter.setPen(QPen(tokens.text, 1.5));
        painter.drawEllipse(centre, r - 1, r - 1);
        painter.setBrush(tokens.text);
        painter.drawPie(QRectF(centre.x() - r + 1, centre.y() - r + 1, 2 * r - 2, 2 * r - 2),
                        90 * 16, 180 * 16);
        return;
    case CellState::Empty:
        painter.setPen(QPen(tokens.frame, 1.5));
        painter.drawEllipse(centre, r - 1, r - 1);
        return;
    }
}

void paintWarningSign(QPainter& painter, QPointF centre, const Tokens& tokens)
{
    painter.setPen(QPen(tokens.bad, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolygon(QPolygonF{centre + QPointF(0, -5), centre + QPointF(5.5, 4.5),
                                  centre + QPointF(-5.5, 4.5)});
    painter.drawLine(centre + QPointF(0, -1.5), centre + QPointF(0, 1.5));
}

} // namespace

StepDelegate::StepDelegate(const MarkingFlow& flow, const StepModel& model, Thumbnails& thumbnails,
                           QObject* parent)
    : QStyledItemDelegate(parent), m_flow(flow), m_model(model), m_thumbnails(thumbnails)
{
}

QSize StepDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const
{
    return {11 * gridStep, pictureHeight + stateHeight + 2 * pad};
}

void StepDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const
{
    const Tokens tokens = tokensOf(option.palette);
    const StepInstant place = m_model.placeOf(index);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setRenderHint(QPainter::SmoothPixmapTransform);
    if (option.state & QStyle::State_Selected) {
        painter->fillRect(option.rect, tokens.chosen);
    }
    const QRect box = option.rect.adjusted(pad, pad, -pad, -pad);
    const QRect picture(box.left(), box.top(), box.width(), pictureHeight);
    paintPicture(*painter, picture, place);
    if (option.state & QStyle::State_Selected) {
        painter->setPen(QPen(tokens.text, 2));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(picture);
    }
    paintState(*painter, QRect(box.left(), picture.bottom() + 1, box.width(), stateHeight), place,
               option.palette);
    painter->restore();
}

void StepDelegate::paintPicture(QPainter& painter, const QRect& box, const StepInstant& place) const
{
    const auto frame = m_flow.frameOf(place);
    if (!frame) {
        return;
    }
    const QImage image = m_thumbnails.of(*frame);
    if (image.isNull()) {
        painter.fillRect(box, QColor(0x70, 0x74, 0x78, 60));
        return;
    }
    const Marking& marking = m_flow.clip()->marking();
    const auto from = marking.marks.lower_bound({*frame, BodySide{}, Landmark{}});
    const PixelPoint hip = hipNear(marking, *frame)
                               .value_or(PixelPoint{image.width() * m_thumbnails.reduction() / 2,
                                                    image.height() * m_thumbnails.reduction() / 2});
    const double middle = hip.u / m_thumbnails.reduction();
    const double centre = hip.v / m_thumbnails.reduction();
    const double high = image.height() * shownShare;
    const double part =
        std::min<double>(image.width(), high * box.width() / static_cast<double>(box.height()));
    const double left = std::clamp(middle - part / 2, 0.0, image.width() - part);
    const double top = std::clamp(centre - high / 2, 0.0, image.height() - high);
    painter.save();
    painter.setClipRect(box);
    painter.drawImage(QRectF(box), image, QRectF(left, top, part, high));
    const double zoom = box.width() / part;
    const FigureInk ink = inkOf(m_flow.clip()->clip().condition);
    for (auto it = from; it != marking.marks.end() && it->first.frame == *frame; ++it) {
        const QPointF at(it->second.at.u / m_thumbnails.reduction() - left,
                         it->second.at.v / m_thumbnails.reduction() - top);
        const bool placed = it->second.origin == Origin::Placed;
        const auto& asked = m_flow.asked(place);
        if (!placed && (it->first.side != BodySide::Near ||
                        std::ranges::find(asked, it->first.landmark) == asked.end())) {
            continue; // Followed, but not this cell's work.
        }
        const bool proposed = it->second.origin == Origin::Proposed;
        const QColor grey = unconfirmedInk(it->second.origin).colour;
        painter.setPen(QPen(proposed ? grey : QColor(Qt::white), 1));
        painter.setBrush(placed ? ink.colour : (proposed ? QColor(Qt::white) : grey));
        const double radius = placed ? 2.5 : 1.8;
        painter.drawEllipse(box.topLeft() + at * zoom, radius, radius);
    }
    painter.restore();
}

void StepDelegate::paintState(QPainter& painter, const QRect& box, const StepInstant& place,
                              const QPalette& palette) const
{
    const Tokens tokens = tokensOf(palette);
    const bool marked = m_flow.frameOf(place).has_value();
    const CellWork work = m_flow.work(place);
    QFont font = painter.font();
    font.setPixelSize(smallText);
    painter.setFont(font);
    const bool idle = marked && work.asked == 0 && work.state == CellState::Confirmed;
    const auto frame = m_flow.frameOf(place);
    const auto odd = frame ? m_flow.oddBonesOn(*frame) : std::vector<OddBone>{};
    if (!odd.empty()) {
        paintWarningSign(painter, QPointF(box.left() + 6, box.center().y() + 1), tokens);
        painter.setPen(tokens.bad);
        painter.drawText(box.adjusted(16, 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                         oddBoneWord(odd.front()));
        return;
    }
    if (marked && !idle) {
        paintSign(painter, QPointF(box.left() + 6, box.center().y() + 1), work.state, tokens);
    }
    const CellDoubt doubt = m_flow.doubt(place);
    const bool look = doubt.isDoubtful || (doubt.guessed() > 0 && doubt.missing > 0);
    painter.setPen(look ? tokens.doubt : tokens.quiet);
    const QString text = doubt.guessed() > 0 ? shortDoubtText(doubt)
                         : idle              ? tr("event only")
                         : work.state == CellState::Begun && marked
                             ? tr("%1 of %2").arg(work.done).arg(work.asked)
                             : stateText(m_flow, place);
    painter.drawText(box.adjusted(marked && !idle ? 16 : 0, 0, 0, 0),
                     Qt::AlignLeft | Qt::AlignVCenter, text);
}

} // namespace latemile::ui
