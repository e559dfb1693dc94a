// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/card_view.hpp"

#include "ui/theme/tokens.hpp"

#include <QPainter>

namespace latemile::ui {

CardView::CardView(const std::optional<SetUpCard>& card, QWidget* parent)
    : QWidget(parent), m_card(card)
{
    setAccessibleName(tr("The set-up card as it will print"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void CardView::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    const Tokens tokens = tokensOf(palette());
    if (!m_card) {
        painter.setPen(tokens.quiet);
        painter.drawText(rect().adjusted(32, 32, -32, -32), Qt::AlignCenter | Qt::TextWordWrap,
                         tr("The card is made when the set-up can be."));
        return;
    }
    const QSizeF size =
        cardSize().scaled(QSizeF(width() - 2.0, height() - 2.0), Qt::KeepAspectRatio);
    const QRectF page(QPointF((width() - size.width()) / 2, 1), size);
    paintSetUpCard(painter, page, *m_card);
    painter.setPen(tokens.frame);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(page);
}

} // namespace latemile::ui
