// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"
#include "ui/picture/picture_tool.hpp"

#include "core/quantities.hpp"

namespace latemile::ui {

class ClipDocument;

/// The figure of a frame and the lines a measure was read from; looks, never edits.
class ReadingTool final : public PictureTool {
public:
    /// The figure alone.
    void show(const ClipDocument* clip, FrameNumber frame);
    /// With the lines of a measure, of the table or of `own`; the label stands on them.
    void show(const ClipDocument* clip, FrameNumber frame, const Measure& measure,
              const OwnMeasures& own, QString label);
    void paint(QPainter& painter, const PictureMap& map) const override;

private:
    const ClipDocument* m_clip{};
    FrameNumber m_frame;
    OwnMeasures m_own; ///< keeps the measure
    const Measure* m_measure{};
    QString m_label;
};

} // namespace latemile::ui
