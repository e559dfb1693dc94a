// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QTimer>

#include <optional>
#include <utility>

namespace latemile::ui {

class ClipDocument;

/// Which frame of a clip is looked at, and how it moves on by itself. Playing keeps to real time
/// and leaves frames out where decoding cannot follow.
class Player final : public QObject {
    Q_OBJECT
public:
    explicit Player(QObject* parent = nullptr);

    void setClip(ClipDocument* clip);                           ///< nullptr: none
    [[nodiscard]] FrameNumber frame() const { return m_frame; } ///< the one asked for last
    [[nodiscard]] bool isPlaying() const { return m_direction != 0; }
    [[nodiscard]] int direction() const { return m_direction; } ///< -1, 0, 1
    [[nodiscard]] double speed() const { return m_speed; }
    [[nodiscard]] bool isLooping() const { return m_loop.has_value(); }

    void goTo(FrameNumber frame); ///< stops at the clip's ends; pauses nothing
    void step(int frames);        ///< pauses
    void play(int direction);
    void pause();
    void setSpeed(double speed); ///< 1 is real time
    void setLoop(const std::optional<std::pair<FrameNumber, FrameNumber>>& loop);

signals:
    void frameChanged(); ///< another frame is asked for
    void frameShown(const latemile::Frame& frame);
    void lateChanged(bool late);
    void playingChanged();

private:
    void tick();
    void restartClock();
    void ask();
    [[nodiscard]] std::pair<FrameNumber, FrameNumber> range() const;

    QPointer<ClipDocument> m_clip;
    FrameNumber m_frame;
    int m_direction{};
    double m_speed{1.0};
    std::optional<std::pair<FrameNumber, FrameNumber>> m_loop;
    QTimer m_tick;
    QTimer m_lateness;
    QElapsedTimer m_clock;
    Seconds m_clockFrom{};
    bool m_asked{};
};

} // namespace latemile::ui
