// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/transport_bar.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/numbers.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

namespace latemile::ui {
namespace {

QToolButton* button(const QString& sign, const QString& name, QWidget* parent)
{
    auto* made = new QToolButton(parent);
    made->setText(sign);
    made->setToolTip(name);
    made->setAccessibleName(name);
    return made;
}

/// The contact the frame shown lies behind, whichever foot.
const Step* stepAt(const ClipDocument& clip, Seconds time)
{
    const Step* last = nullptr;
    for (const Step& step : clip.steps()) {
        if (step.contact <= time) {
            last = &step;
        }
    }
    return last;
}

} // namespace

TransportBar::TransportBar(Player& player, QWidget* parent)
    : QWidget(parent), m_player(player),
      m_backward(button(QStringLiteral("◀"), tr("Play backwards"), this)),
      m_stepBack(button(QStringLiteral("❙◀"), tr("One frame back"), this)),
      m_stepForward(button(QStringLiteral("▶❙"), tr("One frame on"), this)),
      m_forward(button(QStringLiteral("▶"), tr("Play"), this)), m_speed(new QComboBox(this)),
      m_loop(button(tr("Loop step"), tr("Play this step over and over"), this)),
      m_place(new QLabel(this))
{
    m_speed->addItem(tr("real speed"), 1.0);
    m_speed->addItem(tr("1/2 speed"), 0.5);
    m_speed->addItem(tr("1/4 speed"), 0.25);
    m_speed->addItem(tr("1/8 speed"), 0.125);
    m_speed->setAccessibleName(tr("Speed"));
    m_loop->setCheckable(true);
    m_place->setTextFormat(Qt::PlainText);
    m_place->setMinimumWidth(60);

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_backward, m_stepBack, m_stepForward,
                                                           m_forward, m_speed, m_loop}) {
        row->addWidget(widget);
    }
    row->addSpacing(gridStep);
    row->addWidget(m_place, 1);

    connect(m_backward, &QToolButton::clicked, this,
            [this] { m_player.direction() < 0 ? m_player.pause() : m_player.play(-1); });
    connect(m_forward, &QToolButton::clicked, this,
            [this] { m_player.direction() > 0 ? m_player.pause() : m_player.play(1); });
    connect(m_stepBack, &QToolButton::clicked, this, [this] { m_player.step(-1); });
    connect(m_stepForward, &QToolButton::clicked, this, [this] { m_player.step(1); });
    connect(m_speed, &QComboBox::currentIndexChanged, this,
            [this] { m_player.setSpeed(m_speed->currentData().toDouble()); });
    connect(&m_player, &Player::frameChanged, this, &TransportBar::tellPlace);
    connect(&m_player, &Player::playingChanged, this, &TransportBar::tellPlaying);
    tellPlaying();
}

void TransportBar::setClip(const ClipDocument* clip)
{
    if (m_clip != nullptr) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    if (m_clip != nullptr) {
        connect(m_clip, &ClipDocument::stancesChanged, this, &TransportBar::tellPlace);
        connect(m_clip, &QObject::destroyed, this, [this] { m_clip = nullptr; });
    }
    tellPlace();
}

void TransportBar::setSpeedRow(int row)
{
    m_speed->setCurrentIndex(qBound(0, row, m_speed->count() - 1));
}

int TransportBar::speedRow() const
{
    return m_speed->currentIndex();
}

void TransportBar::tellPlaying()
{
    m_forward->setText(m_player.direction() > 0 ? QStringLiteral("❙❙") : QStringLiteral("▶"));
    m_backward->setText(m_player.direction() < 0 ? QStringLiteral("❙❙") : QStringLiteral("◀"));
    m_loop->setChecked(m_player.isLooping());
}

void TransportBar::tellPlace()
{
    if (m_clip == nullptr || !m_clip->isOpen() || !m_clip->index().contains(m_player.frame())) {
        m_place->clear();
        return;
    }
    const Seconds time = m_clip->index().time(m_player.frame());
    QString text = tr("frame %1 of %2   %3")
                       .arg(m_player.frame().value)
                       .arg(m_clip->index().size())
                       .arg(timeText(time));
    if (const Step* step = stepAt(*m_clip, time)) {
        text += tr("   %1 after contact %2")
                    .arg(millisecondsText(time - step->contact))
                    .arg(step->number.value);
    }
    m_place->setText(text);
}

} // namespace latemile::ui
