// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "ui/picture/picture_tool.hpp"

#include "core/quantities.hpp"

namespace latemile::ui {

class ClipDocument;

/// The figure of a frame and the lines a measure was read from; looks, never edits.
class ReadingTool final : public PictureTool {
public:
    /// `measure` nullptr: the figure alone. Neither is owned.
    void show(const ClipDocument* clip, FrameNumber frame, const Measure* measure, QString label);
    void paint(QPainter& painter, const PictureMap& map) const override;

private:
    const ClipDocument* m_clip{};
    FrameNumber m_frame;
    const Measure* m_measure{};
    QString m_label;
};

} // namespace latemile::ui
