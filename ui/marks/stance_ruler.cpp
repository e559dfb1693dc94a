// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/stance_ruler.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/move_event.hpp"
#include "ui/marks/stance_bar.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QContextMenuEvent>
#include <QHelpEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QUndoStack>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

constexpr int titleWidth = 11 * gridStep;
constexpr int tickHeight = 3 * gridStep;
constexpr int rowHeight = 4 * gridStep;
constexpr int barTop = gridStep + 4; ///< in its row: above it is room for a sign
constexpr int barHeight = 2 * gridStep;
constexpr double grip = 6.0;

} // namespace

StanceRuler::StanceRuler(Player& player, QWidget* parent) : QWidget(parent), m_player(player)
{
    setMouseTracking(true);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Stance ruler"));
    setAccessibleDescription(tr("A row a foot, a bar from contact to toe-off."));
    connect(&m_player, &Player::frameChanged, this, [this] {
        keepPlayheadInSight();
        update();
    });
}

void StanceRuler::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    if (m_clip) {
        connect(m_clip, &ClipDocument::opened, this, &StanceRuler::showAll);
        connect(m_clip, &ClipDocument::stancesChanged, this, qOverload<>(&QWidget::update));
        connect(m_clip, &ClipDocument::sceneChanged, this, qOverload<>(&QWidget::update));
        connect(m_clip, &ClipDocument::detailsChanged, this, qOverload<>(&QWidget::update));
    }
    showAll();
}

void StanceRuler::setChosenStep(std::optional<StepNumber> step)
{
    m_chosen = step;
    update();
}

void StanceRuler::setFaults(std::vector<RhythmFault> faults)
{
    m_faults = std::move(faults);
    update();
}

QPointF StanceRuler::signOf(const RhythmFault& fault) const
{
    return {m_scale.at(fault.at), rowTop(fault.foot) + faultSignRadius};
}

const RhythmFault* StanceRuler::faultAt(QPointF at) const
{
    const auto found = std::ranges::find_if(m_faults, [&](const RhythmFault& fault) {
        const QPointF away = signOf(fault) - at;
        return std::hypot(away.x(), away.y()) <= faultSignRadius + 2;
    });
    return isUsable() && found != m_faults.end() ? &*found : nullptr;
}

/// A stance that is not the coach's word yet.
std::optional<StepNumber> StanceRuler::proposalAt(QPointF at) const
{
    const auto& stances = m_clip->marking().stances;
    for (std::size_t n = 0; isUsable() && n < stances.size(); ++n) {
        if (stances[n].origin != Origin::Placed &&
            barOf(stances[n]).adjusted(-grip, -4, grip, 4).contains(at)) {
            return StepNumber{static_cast<int>(n) + 1};
        }
    }
    return std::nullopt;
}

QString StanceRuler::toldAt(QPointF at) const
{
    if (const RhythmFault* fault = faultAt(at)) {
        return fromUtf8(fault->sentence);
    }
    const auto step = isUsable() ? proposalAt(at) : std::nullopt;
    if (!step) {
        return {};
    }
    const Stance& stance = m_clip->marking().stances[static_cast<std::size_t>(step->value - 1)];
    const QString error =
        stance.se ? tr(", contact and toe-off ± %1").arg(millisecondsText(*stance.se)) : QString();
    return tr("Step %1 is proposed%2. Double-click accepts it.").arg(step->value).arg(error);
}

void StanceRuler::mouseDoubleClickEvent(QMouseEvent* event)
{
    if (const auto step = isUsable() ? proposalAt(event->position()) : std::nullopt) {
        emit acceptWanted(*step);
    }
}

void StanceRuler::contextMenuEvent(QContextMenuEvent* event)
{
    const auto step = isUsable() ? proposalAt(event->pos()) : std::nullopt;
    if (!step) {
        return;
    }
    QMenu menu(this);
    menu.addAction(tr("Accept step %1").arg(step->value), this,
                   [this, step] { emit acceptWanted(*step); });
    menu.addAction(tr("Remove step %1").arg(step->value), this,
                   [this, step] { emit rejectWanted(*step); });
    menu.exec(event->globalPos());
}

bool StanceRuler::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        QToolTip::showText(help->globalPos(), toldAt(help->pos()), this);
        return true;
    }
    return QWidget::event(event);
}

QSize StanceRuler::sizeHint() const
{
    return {800, tickHeight + 2 * rowHeight + gridStep};
}

bool StanceRuler::isUsable() const
{
    return m_clip && m_clip->isOpen() && m_clip->index().size() > 1;
}

Seconds StanceRuler::end() const
{
    return m_clip->index().times().back();
}

void StanceRuler::showAll()
{
    m_scale.left = titleWidth;
    m_scale.right = std::max(titleWidth + 1, width() - gridStep);
    if (isUsable()) {
        m_scale.from = Seconds{};
        m_scale.to = end();
    }
    update();
}

void StanceRuler::resizeEvent(QResizeEvent*)
{
    m_scale.left = titleWidth;
    m_scale.right = std::max(titleWidth + 1, width() - gridStep);
}

void StanceRuler::keepPlayheadInSight()
{
    if (!isUsable() || !m_clip->index().contains(m_player.frame())) {
        return;
    }
    const Seconds now = m_clip->index().time(m_player.frame());
    const Seconds length = m_scale.to - m_scale.from;
    if (now < m_scale.from || now > m_scale.to) {
        m_scale.from = std::clamp(now - length * 0.2, Seconds{}, end() - length);
        m_scale.to = m_scale.from + length;
    }
}

double StanceRuler::rowTop(Foot foot) const
{
    return tickHeight + (foot == Foot::Left ? 0 : rowHeight);
}

QRectF StanceRuler::barOf(const Stance& stance) const
{
    const double left = m_scale.at(stance.contact);
    const double right = stance.toeOff ? m_scale.at(*stance.toeOff) : left + 2 * grip;
    return {left, rowTop(stance.foot) + barTop, std::max(2.0, right - left), barHeight};
}

std::optional<StanceRuler::Event> StanceRuler::eventAt(QPointF at) const
{
    const auto& stances = m_clip->marking().stances;
    for (std::size_t n = 0; n < stances.size(); ++n) {
        const QRectF bar = barOf(stances[n]);
        if (at.y() < bar.top() - 4 || at.y() > bar.bottom() + 4) {
            continue;
        }
        const double inside = std::min(grip, bar.width() / 2);
        if (at.x() > bar.left() - grip && at.x() <= bar.left() + inside) {
            return Event{n, false};
        }
        if (stances[n].toeOff && at.x() >= bar.right() - inside && at.x() < bar.right() + grip) {
            return Event{n, true};
        }
    }
    return std::nullopt;
}

void StanceRuler::mousePressEvent(QMouseEvent* event)
{
    if (!isUsable() || event->button() != Qt::LeftButton) {
        return;
    }
    m_player.pause();
    if (const RhythmFault* fault = faultAt(event->position())) {
        m_player.goTo(m_clip->index().firstAtOrAfter(std::min(fault->at, end())));
        return;
    }
    m_held = eventAt(event->position());
    m_heldTo.reset();
    if (m_held) {
        const Stance& stance = m_clip->marking().stances[m_held->stance];
        m_player.goTo(
            m_clip->index().firstAtOrAfter(m_held->isToeOff ? *stance.toeOff : stance.contact));
        emit stepPressed(StepNumber{static_cast<int>(m_held->stance) + 1});
        return;
    }
    m_scrubbing = true;
    scrubTo(event->position().x());
}

void StanceRuler::mouseMoveEvent(QMouseEvent* event)
{
    if (m_held) {
        dragEvent(event->position().x());
    } else if (m_scrubbing) {
        scrubTo(event->position().x());
    } else if (isUsable()) {
        setCursor(faultAt(event->position()) != nullptr
                      ? Qt::PointingHandCursor
                      : (eventAt(event->position()) ? Qt::SizeHorCursor : Qt::ArrowCursor));
    }
}

void StanceRuler::mouseReleaseEvent(QMouseEvent*)
{
    if (m_held && m_heldTo && isUsable()) {
        m_clip->history().push(new MoveEvent(*m_clip, m_held->stance, m_held->isToeOff, *m_heldTo));
    }
    m_held.reset();
    m_heldTo.reset();
    m_scrubbing = false;
    update();
}

void StanceRuler::scrubTo(double x)
{
    const Seconds time = std::clamp(m_scale.timeAt(x), Seconds{}, end());
    m_player.goTo(m_clip->index().nearest(time));
}

void StanceRuler::dragEvent(double x)
{
    const Seconds time = std::clamp(m_scale.timeAt(x), Seconds{}, end());
    const FrameNumber frame = m_clip->index().nearest(time);
    if (MoveEvent::isPossible(*m_clip, m_held->stance, m_held->isToeOff, frame)) {
        m_heldTo = frame;
        m_player.goTo(frame);
        update();
    }
}

void StanceRuler::wheelEvent(QWheelEvent* event)
{
    if (isUsable()) {
        const double factor = std::pow(1.25, event->angleDelta().y() / 120.0);
        m_scale = m_scale.zoomed(factor, m_scale.timeAt(event->position().x()), end());
        update();
    }
    event->accept();
}

void StanceRuler::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (!isUsable()) {
        return;
    }
    paintTicks(painter);
    for (const Foot foot : {Foot::Left, Foot::Right}) {
        paintRow(painter, foot);
    }
    painter.setClipRect(QRectF(titleWidth - 1, 0, width() - titleWidth + 1, height()));
    for (std::size_t n = 0; n < m_clip->marking().stances.size(); ++n) {
        paintStance(painter, n);
    }
    for (const RhythmFault& fault : m_faults) {
        paintFault(painter, fault);
    }
    paintPlayhead(painter);
}

void StanceRuler::paintTicks(QPainter& painter) const
{
    const Tokens tokens = tokensOf(palette());
    QFont font = this->font();
    font.setPixelSize(smallText);
    painter.setFont(font);
    const Seconds step = m_scale.tickStep(64);
    const int decimals = step < Seconds{0.1} ? 2 : 1;
    const auto first = static_cast<int>(std::ceil(m_scale.from / step));
    for (int n = first; step * n <= m_scale.to; ++n) {
        const double x = m_scale.at(step * n);
        painter.setPen(tokens.line);
        painter.drawLine(QPointF(x, tickHeight - 5), QPointF(x, tickHeight + 2 * rowHeight));
        painter.setPen(tokens.quiet);
        const QString text = numberText((step * n).count(), decimals) + QStringLiteral(" s");
        const QRectF box(x - 40, 0, 80, tickHeight - 4);
        if (box.right() - 16 < width() && box.left() > titleWidth - 40) {
            painter.drawText(box, Qt::AlignCenter, text);
        }
    }
}

void StanceRuler::paintRow(QPainter& painter, Foot foot) const
{
    const Tokens tokens = tokensOf(palette());
    painter.setPen(tokens.text);
    const QString title = m_clip->isNear(foot) ? tr("%1, near").arg(capital(wordFor(foot)))
                                               : tr("%1, far").arg(capital(wordFor(foot)));
    painter.drawText(QRectF(0, rowTop(foot) + barTop, titleWidth - gridStep, barHeight),
                     Qt::AlignLeft | Qt::AlignVCenter, title);
    painter.setPen(tokens.line);
    const double middle = rowTop(foot) + barTop + barHeight / 2.0;
    painter.drawLine(QPointF(titleWidth, middle), QPointF(width() - gridStep, middle));
}

void StanceRuler::paintStance(QPainter& painter, std::size_t at) const
{
    Stance stance = m_clip->marking().stances[at];
    if (m_held && m_held->stance == at && m_heldTo) {
        const Seconds moved = m_clip->index().eventTime(*m_heldTo);
        (m_held->isToeOff ? stance.toeOff.emplace(moved) : stance.contact) = moved;
    }
    const double second = m_scale.at(Seconds{1.0}) - m_scale.at(Seconds{0.0});
    StanceBar bar;
    bar.box = barOf(stance);
    bar.number = static_cast<int>(at) + 1;
    bar.isWhole = stance.toeOff.has_value();
    bar.isPlaced = stance.origin == Origin::Placed;
    bar.isFatigued = m_clip->clip().condition == "fatigued";
    bar.isChosen = m_chosen && m_chosen->value == bar.number;
    bar.error = bar.isPlaced ? 0.0 : stance.se.value_or(Seconds{}).count() * second;
    paintStanceBar(painter, bar, tokensOf(palette()));
}

void StanceRuler::paintFault(QPainter& painter, const RhythmFault& fault) const
{
    const bool missing = fault.kind == RhythmFault::Kind::MissedContact ||
                         fault.kind == RhythmFault::Kind::MissedToeOff;
    paintFaultSign(painter, signOf(fault), rowTop(fault.foot) + barTop + barHeight, missing,
                   tokensOf(palette()));
}

void StanceRuler::paintPlayhead(QPainter& painter) const
{
    if (!m_clip->index().contains(m_player.frame())) {
        return;
    }
    const Tokens tokens = tokensOf(palette());
    const double x = m_scale.at(m_clip->index().time(m_player.frame()));
    painter.setPen(QPen(tokens.text, 2));
    painter.drawLine(QPointF(x, tickHeight - 6), QPointF(x, height()));
    painter.setBrush(tokens.text);
    painter.setPen(Qt::NoPen);
    painter.drawPolygon(QPolygonF{QPointF(x - 5, tickHeight - 12), QPointF(x + 5, tickHeight - 12),
                                  QPointF(x, tickHeight - 5)});
}

} // namespace latemile::ui
