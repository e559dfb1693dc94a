// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities.hpp"

#include <QImage>
#include <QObject>
#include <QPointer>

#include <map>
#include <set>

namespace latemile::ui {

class ClipDocument;

/// Small copies of frames for the step table, made when nobody else needs the decoder.
class Thumbnails final : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;

    void setClip(ClipDocument* clip);
    /// Null until it was decoded; then `ready` tells.
    [[nodiscard]] QImage of(FrameNumber frame);
    /// Picture pixels a thumbnail pixel.
    [[nodiscard]] double reduction() const { return m_reduction; }

signals:
    void ready();

private:
    QPointer<ClipDocument> m_clip;
    std::map<FrameNumber, QImage> m_images;
    std::set<FrameNumber> m_asked;
    double m_reduction{1.0};
};

} // namespace latemile::ui
