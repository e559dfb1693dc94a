// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/picture/picture_image.hpp"

#include <memory>

namespace latemile::ui {

QImage imageOf(const Picture& picture)
{
    if (picture.isEmpty()) {
        return {};
    }
    using Keeper = std::shared_ptr<const std::uint8_t>;
    auto keeper = std::make_unique<Keeper>(picture.pixels());
    return QImage(
        picture.row(0), picture.width(), picture.height(),
        static_cast<qsizetype>(picture.bytesPerRow()), QImage::Format_RGB32,
        [](void* held) { std::unique_ptr<Keeper>(static_cast<Keeper*>(held)).reset(); },
        keeper.release());
}

} // namespace latemile::ui
