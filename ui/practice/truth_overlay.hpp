// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/practice/clip_truth.hpp"

#include <QWidget>

namespace latemile::ui {

class FrameView;
class Player;

/// Lies over the picture and shows where the landmarks truly are: crosses, never dots, so that no
/// one takes them for marks. Lets every click through.
class TruthOverlay final : public QWidget {
    Q_OBJECT
public:
    TruthOverlay(FrameView& view, const Player& player, const ClipTruth& truth);

protected:
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    FrameView& m_view;
    const Player& m_player;
    const ClipTruth& m_truth;
};

} // namespace latemile::ui
