// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_drawing.hpp"

#include "ui/filming/set_up_card.hpp"
#include "ui/sheet/sheet_type.hpp"
#include "ui/text/numbers.hpp"

#include <QCoreApplication>
#include <QPainter>

#include <cmath>

namespace latemile::ui {
namespace {

constexpr double pt = twipsPerPoint;

QString translated(const char* text)
{
    return QCoreApplication::translate("SetUpDrawing", text);
}

/// Draws in lines of one weight; labels are small type.
class Pencil {
public:
    Pencil(QPainter& painter, const SheetType& type) : m_painter(painter), m_type(type) {}

    void line(QPointF from, QPointF to, bool dashed = false) const
    {
        QPen pen(m_inks.text, 0.8 * pt, dashed ? Qt::DashLine : Qt::SolidLine);
        m_painter.setPen(pen);
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawLine(from, to);
    }
    void box(const QRectF& rect) const
    {
        m_painter.setPen(QPen(m_inks.text, 0.8 * pt));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawRect(rect);
    }
    void ring(QPointF at, double radius) const
    {
        m_painter.setPen(QPen(m_inks.text, 0.8 * pt));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawEllipse(at, radius, radius);
    }
    void dot(QPointF at) const
    {
        m_painter.setPen(Qt::NoPen);
        m_painter.setBrush(m_inks.text);
        m_painter.drawEllipse(at, 2.2 * pt, 2.2 * pt);
    }
    void arrow(QPointF from, QPointF to) const
    {
        line(from, to);
        const QPointF way = (to - from) / std::hypot((to - from).x(), (to - from).y());
        const QPointF across(-way.y(), way.x());
        line(to, to - way * 5 * pt + across * 2.5 * pt);
        line(to, to - way * 5 * pt - across * 2.5 * pt);
    }
    void label(const QRectF& rect, const QString& text, Qt::Alignment alignment) const
    {
        m_painter.setPen(m_inks.quiet);
        paintText(m_painter, rect, text, m_type, Role::Small, alignment);
    }
    [[nodiscard]] double lineHeight() const { return m_type.lineHeight(Role::Small); }

private:
    QPainter& m_painter;
    const SheetType& m_type;
    SheetInks m_inks{sheetInks({})};
};

/// Belt, pole and camera seen from above, with what the camera sees.
void paintFromAbove(const Pencil& pencil, const QRectF& rect, const SetUpCard& card)
{
    const double high = pencil.lineHeight();
    pencil.label(QRectF(rect.left(), rect.top(), rect.width(), high),
                 translated(QT_TRANSLATE_NOOP("SetUpDrawing", "From above")), Qt::AlignLeft);
    const QRectF belt(rect.left() + rect.width() * 0.2, rect.top() + high * 1.5, rect.width() * 0.6,
                      22 * pt);
    const QPointF middle = belt.center();
    const QPointF camera(middle.x(), rect.bottom() - 12 * pt);
    pencil.box(belt);
    pencil.arrow({belt.right() - 14 * pt, middle.y()}, {belt.left() + 14 * pt, middle.y()});
    pencil.dot({belt.right() - 7 * pt, middle.y()});
    // Above the belt and close below it nothing of the camera's view runs through a label.
    pencil.label(QRectF(middle.x(), belt.top() - high, belt.right() - middle.x(), high),
                 translated(QT_TRANSLATE_NOOP("SetUpDrawing", "pole")), Qt::AlignRight);
    pencil.box(QRectF(camera.x() - 9 * pt, camera.y(), 18 * pt, 10 * pt));
    pencil.line(camera, {rect.left() + rect.width() * 0.08, belt.top()}, true);
    pencil.line(camera, {rect.right() - rect.width() * 0.08, belt.top()}, true);
    pencil.line(camera, {middle.x(), belt.bottom()});
    // The small square of a right angle.
    pencil.line({middle.x() + 6 * pt, belt.bottom()},
                {middle.x() + 6 * pt, belt.bottom() + 6 * pt});
    pencil.line({middle.x(), belt.bottom() + 6 * pt},
                {middle.x() + 6 * pt, belt.bottom() + 6 * pt});
    pencil.label(QRectF(middle.x() + 9 * pt, belt.bottom() + 2 * pt, 60 * pt, high),
                 numberText(card.distanceCm / 100.0, 2) + QStringLiteral("\u00a0m"), Qt::AlignLeft);
}

/// Camera, pole and runner seen along the belt.
void paintAlongBelt(const Pencil& pencil, const QRectF& rect, const SetUpCard& card)
{
    const double high = pencil.lineHeight();
    pencil.label(QRectF(rect.left(), rect.top(), rect.width(), high),
                 translated(QT_TRANSLATE_NOOP("SetUpDrawing", "Along the belt")), Qt::AlignLeft);
    const double ground = rect.bottom() - 4 * pt;
    const double belt = ground - 8 * pt;
    const double full = belt - rect.top() - high * 1.4; // 180 cm
    const double lens = belt - full * qBound(0.3, card.lensHeightCm / 180.0, 0.8);
    const double cameraX = rect.left() + rect.width() * 0.14;
    const double runnerX = rect.left() + rect.width() * 0.78;
    const double poleX = runnerX - 14 * pt;
    pencil.line({rect.left(), ground}, {rect.right(), ground});
    pencil.box(QRectF(runnerX - 30 * pt, belt, 60 * pt, ground - belt));
    for (const double foot : {-12.0, 0.0, 12.0}) {
        pencil.line({cameraX, lens + 5 * pt}, {cameraX + foot * pt, ground});
    }
    pencil.box(QRectF(cameraX - 8 * pt, lens - 5 * pt, 16 * pt, 10 * pt));
    pencil.line({cameraX + 8 * pt, lens}, {runnerX, lens}, true);
    pencil.line({poleX, belt}, {poleX, belt - full * 0.56});
    pencil.line({poleX - 3 * pt, belt - full * 0.56}, {poleX + 3 * pt, belt - full * 0.56});
    // The runner: head, trunk, and two legs that hide each other.
    pencil.ring({runnerX, belt - full * 0.93}, full * 0.06);
    pencil.line({runnerX, belt - full * 0.87}, {runnerX, belt - full * 0.5});
    pencil.line({runnerX, belt - full * 0.5}, {runnerX - 3 * pt, belt});
    pencil.line({runnerX, belt - full * 0.5}, {runnerX + 6 * pt, belt - full * 0.14});
    pencil.line({runnerX, belt - full * 0.8}, {runnerX + 8 * pt, belt - full * 0.55});
    const double between = (cameraX + poleX) / 2;
    pencil.arrow({between, lens + 10 * pt}, {between, lens + 1 * pt});
    pencil.arrow({between, belt - 10 * pt}, {between, belt});
    pencil.line({between - 10 * pt, belt}, {between + 10 * pt, belt}, true);
    pencil.label(QRectF(between - 40 * pt, (lens + belt) / 2 - high / 2, 80 * pt, high),
                 numberText(card.lensHeightCm, 0) + QStringLiteral("\u00a0cm"), Qt::AlignHCenter);
}

} // namespace

void paintSetUpDrawing(QPainter& painter, const QRectF& rect, const SetUpCard& card,
                       const SheetType& type)
{
    const Pencil pencil(painter, type);
    const double half = rect.width() / 2 - 8 * pt;
    paintFromAbove(pencil, QRectF(rect.left(), rect.top(), half, rect.height()), card);
    paintAlongBelt(pencil, QRectF(rect.right() - half, rect.top(), half, rect.height()), card);
}

} // namespace latemile::ui
