// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/paper_view.hpp"

#include "ui/sheet/sheet_painter.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/theme/tokens.hpp"

#include <QPainter>

namespace latemile::ui {

PaperView::PaperView(const SheetMaker& maker, QWidget* parent) : QWidget(parent), m_maker(maker)
{
    setAccessibleName(tr("The sheet as it will print"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setMinimumSize(240, 320);
    connect(&maker, &SheetMaker::made, this, qOverload<>(&QWidget::update));
}

void PaperView::setStyle(const SheetStyle& style)
{
    m_style = style;
    update();
}

void PaperView::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    const Tokens tokens = tokensOf(palette());
    if (!m_maker.content()) {
        painter.setPen(tokens.text);
        const QString text = m_maker.fault().isEmpty() ? tr("Making the sheet…") : m_maker.fault();
        painter.drawText(rect().adjusted(32, 32, -32, -32), Qt::AlignCenter | Qt::TextWordWrap,
                         text);
        return;
    }
    const QSizeF paper = paperSize(m_style.paper);
    const QSizeF size = paper.scaled(QSizeF(width() - 2.0, height() - 2.0), Qt::KeepAspectRatio);
    const QRectF page(QPointF((width() - size.width()) / 2, (height() - size.height()) / 2), size);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.fillRect(page, Qt::white);
    paintSheet(painter, page, *m_maker.content(), m_maker.pictures(), m_style);
    painter.setPen(tokens.frame);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(page);
}

} // namespace latemile::ui
