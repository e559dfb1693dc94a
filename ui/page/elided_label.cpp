// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/elided_label.hpp"

#include "ui/theme/tokens.hpp"

#include <QEvent>

#include <algorithm>

namespace latemile::ui {

ElidedLabel::ElidedLabel(QWidget* parent) : QLabel(parent)
{
    setTextFormat(Qt::PlainText);
}

void ElidedLabel::setWhole(const QString& text)
{
    m_whole = text;
    setAccessibleName(text);
    fit();
    updateGeometry();
}

QSize ElidedLabel::sizeHint() const
{
    ensurePolished();
    // One more than measured: a fraction of a pixel must not cut a letter off.
    return {fontMetrics().horizontalAdvance(m_whole) + 1, QLabel::sizeHint().height()};
}

QSize ElidedLabel::minimumSizeHint() const
{
    const QSize wish = sizeHint();
    return {std::min(wish.width(), 20 * gridStep), wish.height()};
}

void ElidedLabel::resizeEvent(QResizeEvent* event)
{
    QLabel::resizeEvent(event);
    fit();
}

void ElidedLabel::changeEvent(QEvent* event)
{
    QLabel::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        fit();
    }
}

void ElidedLabel::fit()
{
    const QString shown = sizeHint().width() <= width()
                              ? m_whole
                              : fontMetrics().elidedText(m_whole, Qt::ElideRight, width());
    if (shown != text()) {
        setText(shown);
    }
    setToolTip(shown == m_whole ? QString() : m_whole.toHtmlEscaped());
}

} // namespace latemile::ui
