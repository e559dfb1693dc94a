// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/crop.hpp"
#include "ui/picture/picture_tool.hpp"

#include <QObject>
#include <QSize>

#include <optional>

namespace latemile::ui {

/// A box round the runner, dragged over the picture, or moved and sized by keys and then taken.
class BoxTool final : public QObject, public PictureTool {
    Q_OBJECT
public:
    using QObject::QObject;

    /// Begins with the box taken last, where that was on a picture of this size, as in the clip
    /// before; else with one in the middle. For those who set it by keys.
    void begin(QSize picture);
    void move(int across, int down); ///< by a hundredth of the picture's height
    void widen(int across, int down);
    void take(); ///< the box as it stands
    [[nodiscard]] const Box& box() const { return m_box; }

    void paint(QPainter& painter, const PictureMap& map) const override;
    bool press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers keys) override;
    void drag(PixelPoint at) override;
    void release() override;

signals:
    void changed(); ///< time to paint
    void taken(const latemile::Box& box);

private:
    void keepInPicture();
    QSize m_picture;
    Box m_box;
    std::optional<PixelPoint> m_from; ///< where the drag began
    QSize m_takenOn;                  ///< size of the picture on which a box was taken last ...
    Box m_taken;                      ///< ... and that box
};

} // namespace latemile::ui
