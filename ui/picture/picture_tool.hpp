// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/picture_map.hpp"

#include <QString>
#include <Qt>

#include <optional>

class QPainter;

namespace latemile::ui {

/// What a page draws over the picture and does with the pointer there. Places are pixels of the
/// upright picture.
class PictureTool {
public:
    virtual ~PictureTool() = default;

    /// Over the picture, in device pixels; called for the close-up too, with its own map.
    virtual void paint(QPainter& painter, const PictureMap& map) const = 0;

    /// True: the tool has taken hold of something and gets `drag` until `release`.
    /// False: the press pans the picture.
    virtual bool press(PixelPoint, const PictureMap&, Qt::KeyboardModifiers) { return false; }
    virtual void drag(PixelPoint) {}
    virtual void release() {}
    virtual void hover(PixelPoint, const PictureMap&) {}
    virtual void leave() {}

    /// What the close-up follows while a mark is set; none: no close-up.
    [[nodiscard]] virtual std::optional<PixelPoint> closeUpAt() const { return std::nullopt; }
    /// Written at the pointer: the landmark asked for.
    [[nodiscard]] virtual QString nameAtPointer() const { return {}; }
};

} // namespace latemile::ui
