// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/transport_bar.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/numbers.hpp"
#include "ui/theme/icons.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QToolButton>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

QToolButton* button(const QString& icon, const QString& name, QWidget* parent)
{
    auto* made = new QToolButton(parent);
    made->setIcon(iconNamed(icon));
    made->setIconSize({2 * gridStep, 2 * gridStep});
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
      m_backward(button(QStringLiteral("play_back"), tr("Play backwards"), this)),
      m_stepBack(button(QStringLiteral("frame_back"), tr("One frame back"), this)),
      m_stepForward(button(QStringLiteral("frame_on"), tr("One frame on"), this)),
      m_forward(button(QStringLiteral("play"), tr("Play"), this)), m_speed(new QComboBox(this)),
      m_loop(button(QStringLiteral("loop"), tr("Play this step over and over"), this)),
      m_whole(button(QStringLiteral("fit"), tr("Whole picture"), this))
{
    m_speed->addItem(tr("real speed"), 1.0);
    m_speed->addItem(tr("1/2 speed"), 0.5);
    m_speed->addItem(tr("1/4 speed"), 0.25);
    m_speed->addItem(tr("1/8 speed"), 0.125);
    m_speed->setAccessibleName(tr("Speed"));
    m_loop->setCheckable(true);

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_backward, m_stepBack, m_stepForward,
                                                           m_forward, m_speed, m_loop, m_whole}) {
        row->addWidget(widget);
    }
    row->addSpacing(gridStep);
    m_whole->hide();
    row->addWidget(buildPlace());
    row->addStretch();

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

QWidget* TransportBar::buildPlace()
{
    auto* place = new QWidget(this);
    m_place = plainLabel({}, place);
    m_sinceContact = plainLabel({}, place);
    m_sinceContact->setProperty("rank", "small");
    auto* column = new QVBoxLayout(place);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_place);
    column->addWidget(m_sinceContact);
    // Figures change while it plays: nothing beside them may move.
    m_place->setMinimumWidth(m_place->fontMetrics().horizontalAdvance(
        tr("frame %1 of %2   %3").arg(99999).arg(99999).arg(QStringLiteral("999.999 s"))));
    return place;
}

void TransportBar::setView(FrameView& view)
{
    m_whole->show();
    connect(m_whole, &QToolButton::clicked, &view, &FrameView::fit);
}

void TransportBar::showKeys(Keys& keys)
{
    keys.label(*m_backward, "picture.play_back");
    keys.label(*m_stepBack, "picture.frame_back");
    keys.label(*m_stepForward, "picture.frame_on");
    keys.label(*m_forward, "picture.play");
    keys.label(*m_loop, "picture.loop");
    keys.label(*m_whole, "picture.fit");
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
    const auto drawing = [this](int direction, const char* still) {
        return iconNamed(m_player.direction() == direction ? QStringLiteral("pause")
                                                           : QString::fromLatin1(still));
    };
    m_forward->setIcon(drawing(1, "play"));
    m_backward->setIcon(drawing(-1, "play_back"));
    m_loop->setChecked(m_player.isLooping());
}

void TransportBar::tellPlace()
{
    m_place->clear();
    m_sinceContact->clear();
    if (m_clip == nullptr || !m_clip->isOpen() || !m_clip->index().contains(m_player.frame())) {
        return;
    }
    const Seconds time = m_clip->index().time(m_player.frame());
    m_place->setText(tr("frame %1 of %2   %3")
                         .arg(m_player.frame().value)
                         .arg(m_clip->index().size())
                         .arg(timeText(time)));
    const Step* step = stepAt(*m_clip, time);
    m_sinceContact->setText(step == nullptr ? tr("before the first contact")
                                            : tr("%1 after contact %2")
                                                  .arg(millisecondsText(time - step->contact))
                                                  .arg(step->number.value));
}

} // namespace latemile::ui
