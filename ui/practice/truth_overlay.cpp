// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/truth_overlay.hpp"

#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"

#include <QEvent>
#include <QPainter>

#include <utility>

namespace latemile::ui {
namespace {

void paintCross(QPainter& painter, QPointF at)
{
    constexpr double arm = 7.0;
    for (const auto& [colour, width] :
         {std::pair(QColor(Qt::black), 4.0), std::pair(QColor(Qt::white), 2.0)}) {
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(at - QPointF(arm, arm), at + QPointF(arm, arm));
        painter.drawLine(at - QPointF(arm, -arm), at + QPointF(arm, -arm));
    }
}

} // namespace

TruthOverlay::TruthOverlay(FrameView& view, const Player& player, const ClipTruth& truth)
    : QWidget(&view), m_view(view), m_player(player), m_truth(truth)
{
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    setGeometry(view.rect());
    view.installEventFilter(this);
    connect(&view, &FrameView::mapChanged, this, qOverload<>(&QWidget::update));
    connect(&player, &Player::frameChanged, this, qOverload<>(&QWidget::update));
    hide();
}

bool TruthOverlay::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::Resize) {
        setGeometry(m_view.rect());
    }
    return QWidget::eventFilter(watched, event);
}

void TruthOverlay::paintEvent(QPaintEvent*)
{
    const auto frame = m_player.frame().value;
    if (frame < 0 || frame >= static_cast<std::int64_t>(m_truth.frames.size())) {
        return;
    }
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (const auto& [landmark, point] : m_truth.frames[static_cast<std::size_t>(frame)]) {
        paintCross(painter, m_view.map().toDevice(point) / m_view.devicePixelRatioF());
    }
}

} // namespace latemile::ui
