// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/icons.hpp"

#include "ui/theme/tokens.hpp"

#include <QFile>
#include <QGuiApplication>
#include <QIconEngine>
#include <QPainter>
#include <QPalette>
#include <QSvgRenderer>

namespace latemile::ui {
namespace {

class InkIcon final : public QIconEngine {
public:
    explicit InkIcon(QByteArray drawing) : m_drawing(std::move(drawing)) {}

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) override
    {
        const Tokens tokens = tokensOf(QGuiApplication::palette());
        const QColor ink = mode == QIcon::Disabled
                               ? tokens.proposal
                               : (state == QIcon::On ? tokens.paper : tokens.text);
        QByteArray inked = m_drawing;
        inked.replace("currentColor", ink.name().toLatin1());
        QSvgRenderer(inked).render(painter, rect);
    }
    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override
    {
        QPixmap pixmap(size);
        pixmap.fill(Qt::transparent);
        QPainter painter(&pixmap);
        paint(&painter, QRect(QPoint(0, 0), size), mode, state);
        return pixmap;
    }
    [[nodiscard]] QIconEngine* clone() const override { return new InkIcon(m_drawing); }

private:
    QByteArray m_drawing;
};

} // namespace

QIcon iconNamed(const QString& name)
{
    QFile file(QStringLiteral(":/icons/%1.svg").arg(name));
    return file.open(QIODevice::ReadOnly) ? QIcon(new InkIcon(file.readAll())) : QIcon();
}

} // namespace latemile::ui
