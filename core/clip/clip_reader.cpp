// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/clip_reader.hpp"

#include "core/clip/open_clip.hpp"

namespace latemile {

struct ClipReader::Inside {
    OpenClip clip;
    UprightMaker upright;

    explicit Inside(OpenClip opened) : clip(std::move(opened)), upright(clip.shape) {}
};

ClipReader::ClipReader(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
ClipReader::ClipReader(ClipReader&&) noexcept = default;
ClipReader& ClipReader::operator=(ClipReader&&) noexcept = default;
ClipReader::~ClipReader() = default;

Outcome<ClipReader> ClipReader::open(const std::filesystem::path& file, const ClipOptions& options)
{
    ASSIGN_OR_RETURN(auto clip, openClip(file, options));
    return ClipReader(std::make_unique<Inside>(std::move(clip)));
}

const ClipFacts& ClipReader::facts() const
{
    return m_inside->clip.facts;
}

const FrameIndex& ClipReader::index() const
{
    return m_inside->clip.index;
}

Outcome<void> ClipReader::hasFrame(FrameNumber n) const
{
    const auto& index = m_inside->clip.index;
    if (!index.contains(n)) {
        return fail(Error::Kind::NotFound, "The clip has no frame " + std::to_string(n.value) +
                                               "; its frames are 0 to " +
                                               std::to_string(index.size() - 1) + ".");
    }
    return {};
}

Outcome<Frame> ClipReader::frame(FrameNumber n)
{
    RETURN_IF_ERROR(hasFrame(n));
    auto& clip = m_inside->clip;
    ASSIGN_OR_RETURN(const auto picture, clip.pictures->picture(n.value, {}));
    ASSIGN_OR_RETURN(auto upright, m_inside->upright.make(*picture));
    return Frame{n, clip.index.time(n), std::move(upright)};
}

Outcome<Shades> ClipReader::shades(FrameNumber n)
{
    RETURN_IF_ERROR(hasFrame(n));
    auto& clip = m_inside->clip;
    ASSIGN_OR_RETURN(const auto picture, clip.pictures->picture(n.value, {}));
    return m_inside->upright.shades(*picture);
}

Outcome<void> ClipReader::lookAtShades(FrameNumber n,
                                       const std::function<void(const ShadesView&)>& look)
{
    RETURN_IF_ERROR(hasFrame(n));
    ASSIGN_OR_RETURN(const auto picture, m_inside->clip.pictures->picture(n.value, {}));
    return m_inside->upright.lookAtShades(*picture, look);
}

} // namespace latemile
