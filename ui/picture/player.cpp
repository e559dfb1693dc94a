// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/player.hpp"

#include "ui/document/clip_document.hpp"

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int tickMilliseconds = 8;
/// Three pictures of a 60 Hz screen: later than this an eye sees the wait.
constexpr int lateMilliseconds = 50;

} // namespace

Player::Player(QObject* parent) : QObject(parent)
{
    m_tick.setInterval(tickMilliseconds);
    m_tick.setTimerType(Qt::PreciseTimer);
    connect(&m_tick, &QTimer::timeout, this, &Player::tick);
    m_lateness.setSingleShot(true);
    m_lateness.setInterval(lateMilliseconds);
    connect(&m_lateness, &QTimer::timeout, this, [this] { emit lateChanged(true); });
}

void Player::setClip(ClipDocument* clip)
{
    if (m_clip == clip) {
        return;
    }
    pause();
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    m_loop.reset();
    m_asked = false;
    m_frame = {};
    if (m_clip) {
        connect(m_clip, &ClipDocument::opened, this, [this] { goTo(m_frame); });
    }
    if (m_clip && m_clip->isOpen()) {
        ask();
    }
    emit frameChanged();
}

void Player::goTo(FrameNumber frame)
{
    if (!m_clip || !m_clip->isOpen()) {
        return;
    }
    const auto last = m_clip->index().size() - 1;
    m_frame = {std::clamp<std::int64_t>(frame.value, 0, std::max<std::int64_t>(last, 0))};
    restartClock();
    ask();
    emit frameChanged();
}

void Player::step(int frames)
{
    pause();
    goTo({m_frame.value + frames});
}

void Player::play(int direction)
{
    if (!m_clip || !m_clip->isOpen()) {
        return;
    }
    const auto [first, last] = range();
    m_direction = direction;
    if (direction > 0 && m_frame >= last) {
        m_frame = first;
    } else if (direction < 0 && m_frame <= first) {
        m_frame = last;
    }
    restartClock();
    m_tick.start();
    emit playingChanged();
}

void Player::pause()
{
    if (!isPlaying()) {
        return;
    }
    m_direction = 0;
    m_tick.stop();
    emit playingChanged();
}

void Player::setSpeed(double speed)
{
    m_speed = speed;
    restartClock();
    emit playingChanged();
}

void Player::setLoop(const std::optional<std::pair<FrameNumber, FrameNumber>>& loop)
{
    m_loop = loop;
    if (m_loop && (m_frame < m_loop->first || m_frame > m_loop->second)) {
        goTo(m_loop->first);
    }
    emit playingChanged();
}

std::pair<FrameNumber, FrameNumber> Player::range() const
{
    return m_loop ? *m_loop
                  : std::pair{FrameNumber{0},
                              FrameNumber{std::max<std::int64_t>(m_clip->index().size() - 1, 0)}};
}

void Player::restartClock()
{
    if (m_clip && m_clip->isOpen() && m_clip->index().contains(m_frame)) {
        m_clockFrom = m_clip->index().time(m_frame);
        m_clock.start();
    }
}

void Player::tick()
{
    if (!m_clip || !m_clip->isOpen() || m_asked) {
        return;
    }
    const auto [first, last] = range();
    const Seconds passed{static_cast<double>(m_clock.nsecsElapsed()) * 1e-9};
    const Seconds now = m_clockFrom + passed * (m_speed * m_direction);
    const FrameIndex& index = m_clip->index();
    const bool over = m_direction > 0 ? now > index.time(last) : now < index.time(first);
    if (over && m_loop) {
        m_frame = m_direction > 0 ? first : last;
        restartClock();
    } else if (over) {
        m_frame = m_direction > 0 ? last : first;
        pause();
    } else {
        const FrameNumber frame = index.nearest(now);
        if (frame == m_frame) {
            return;
        }
        m_frame = frame;
    }
    ask();
    emit frameChanged();
}

void Player::ask()
{
    m_asked = true;
    m_lateness.start();
    m_clip->feed().ask(this, m_frame, [this](const Frame& frame) {
        m_asked = false;
        m_lateness.stop();
        emit lateChanged(false);
        emit frameShown(frame);
    });
}

} // namespace latemile::ui
