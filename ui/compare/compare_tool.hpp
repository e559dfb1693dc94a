// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/ink.hpp"
#include "ui/picture/picture_tool.hpp"

#include "core/quantities.hpp"

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// Where a ghost is laid on the figure below it.
enum class GhostAt { None, Hip, StanceFoot };

/// A clip's figure with another clip's laid over it as a ghost, hip on hip or foot on foot and in
/// centimetres, so that the two are of one scale.
class CompareTool final : public PictureTool {
public:
    struct Shown {
        const ClipDocument* clip{};
        FrameNumber frame;
        FigureInk ink;
    };
    void setOwn(const std::optional<Shown>& own) { m_own = own; }
    void setGhost(const std::optional<Shown>& ghost, GhostAt at);
    /// Why no ghost is drawn though one was asked for; empty: it is.
    [[nodiscard]] QString ghostFault() const;
    void paint(QPainter& painter, const PictureMap& map) const override;

private:
    void paintGhost(QPainter& painter, const PictureMap& map) const;

    std::optional<Shown> m_own;
    std::optional<Shown> m_ghost;
    GhostAt m_at{GhostAt::None};
};

} // namespace latemile::ui
