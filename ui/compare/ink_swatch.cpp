// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/ink_swatch.hpp"

#include "ui/theme/tokens.hpp"

#include <QPainter>

namespace latemile::ui {

InkSwatch::InkSwatch(QWidget* parent) : QWidget(parent)
{
    setFixedSize(5 * gridStep, 3 * gridStep);
}

void InkSwatch::setInk(const FigureInk& ink)
{
    m_ink = ink;
    update();
}

void InkSwatch::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double middle = height() / 2.0;
    drawInkLine(painter, m_ink, QPointF(3, middle), QPointF(width() - 3, middle), 1.0);
    drawInkDot(painter, m_ink, QPointF(width() / 2.0, middle), 1.0);
}

} // namespace latemile::ui
