// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/picture_tool.hpp"

#include "core/quantities.hpp"

namespace latemile::ui {

class MarkingFlow;

/// The pointer on the marks page: places the landmark asked for, takes hold of marks and drags
/// them; draws the figure of the frame.
class MarkTool final : public PictureTool {
public:
    explicit MarkTool(MarkingFlow& flow) : m_flow(flow) {}
    void setFrame(FrameNumber frame) { m_frame = frame; }
    /// Off while the clip plays: no crosshair chases the pointer.
    void setPlacing(bool placing) { m_placing = placing; }

    void paint(QPainter& painter, const PictureMap& map) const override;
    bool press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers keys) override;
    void drag(PixelPoint at) override;
    void release() override;
    void hover(PixelPoint at, const PictureMap& map) override;
    [[nodiscard]] std::optional<PixelPoint> closeUpAt() const override;
    [[nodiscard]] QString nameAtPointer() const override;

private:
    [[nodiscard]] bool isPlacing() const;
    void paintErrors(QPainter& painter, const PictureMap& map) const;
    void paintOddBones(QPainter& painter, const PictureMap& map) const;
    void paintLiveLines(QPainter& painter, const PictureMap& map) const;
    void paintChosen(QPainter& painter, const PictureMap& map) const;

    MarkingFlow& m_flow;
    FrameNumber m_frame;
    bool m_placing{true};
    bool m_dragging{};
    PixelPoint m_grip{}; ///< from the pointer to the mark held: it must not jump
};

} // namespace latemile::ui
