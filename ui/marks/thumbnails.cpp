// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/thumbnails.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/picture/picture_image.hpp"

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int height = 270;
constexpr std::size_t most = 400; ///< about 200 MB of pictures 480 wide

} // namespace

void Thumbnails::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
        m_clip->feed().dropSmall(this);
    }
    m_clip = clip;
    m_images.clear();
    m_asked.clear();
    if (m_clip) {
        connect(m_clip, &ClipDocument::opened, this, [this] {
            m_images.clear();
            m_asked.clear();
            emit ready();
        });
    }
}

QImage Thumbnails::of(FrameNumber frame)
{
    if (const auto found = m_images.find(frame); found != m_images.end()) {
        return found->second;
    }
    if (m_clip && m_clip->isOpen() && m_asked.insert(frame).second) {
        m_clip->feed().askSmall(this, frame, [this](const Frame& decoded) {
            if (m_images.size() >= most) {
                m_images.clear();
                m_asked.clear();
            }
            const QImage whole = imageOf(decoded.picture);
            m_reduction = std::max(1.0, whole.height() / double{height});
            m_images[decoded.number] =
                whole.scaledToHeight(std::min(height, whole.height()), Qt::SmoothTransformation);
            emit ready();
        });
    }
    return {};
}

} // namespace latemile::ui
