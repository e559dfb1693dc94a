// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/picture_tool.hpp"

#include "core/quantities.hpp"

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// A clip's figure with the other clip's laid over it as a ghost, hip on hip and in centimetres, so
/// that the two are of one scale.
class CompareTool final : public PictureTool {
public:
    struct Shown {
        const ClipDocument* clip{};
        FrameNumber frame;
    };
    void setOwn(Shown own) { m_own = own; }
    void setGhost(std::optional<Shown> ghost) { m_ghost = ghost; }
    void paint(QPainter& painter, const PictureMap& map) const override;

private:
    void paintGhost(QPainter& painter, const PictureMap& map) const;

    Shown m_own;
    std::optional<Shown> m_ghost;
};

} // namespace latemile::ui
