// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QComboBox;
class QLabel;
class QToolButton;

namespace latemile::ui {

class ClipDocument;
class FrameView;
class Keys;
class Player;

/// Play, speed and loop, and where in the clip one is: frame, real time, time since contact.
class TransportBar final : public QWidget {
    Q_OBJECT
public:
    TransportBar(Player& player, QWidget* parent = nullptr);

    void setClip(const ClipDocument* clip);
    /// Offers to show the whole of this picture again.
    void setView(FrameView& view);
    /// Tool tips name the keys, on pages where the keys work.
    void showKeys(Keys& keys);
    /// The loop key asks the page, which knows the step.
    [[nodiscard]] QToolButton& loopButton() const { return *m_loop; }
    /// 0: real time ... 3: an eighth.
    void setSpeedRow(int row);
    [[nodiscard]] int speedRow() const;

private:
    QWidget* buildPlace();
    void tellPlace();
    void tellPlaying();

    Player& m_player;
    const ClipDocument* m_clip{};
    QToolButton* m_backward;
    QToolButton* m_stepBack;
    QToolButton* m_stepForward;
    QToolButton* m_forward;
    QComboBox* m_speed;
    QToolButton* m_loop;
    QToolButton* m_whole;
    QLabel* m_place{};
    QLabel* m_sinceContact{};
};

} // namespace latemile::ui
