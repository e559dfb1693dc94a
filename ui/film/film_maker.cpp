// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/film/film_maker.hpp"

#include "core/clip/clip_reader.hpp"
#include "core/film/film_writer.hpp"
#include "ui/film/film_painter.hpp"
#include "ui/picture/picture_image.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace latemile::ui {
namespace {

/// The frames of one side, each decoded once as long as it stays.
class SideFrames {
public:
    static Outcome<SideFrames> of(const FilmPlan::Side& side)
    {
        ClipOptions options;
        options.captureRate = side.shots.front().still.captureRate;
        ASSIGN_OR_RETURN(auto reader, ClipReader::open(side.shots.front().still.clip, options));
        return SideFrames(std::move(reader));
    }

    Outcome<QImage> image(FrameNumber frame)
    {
        if (m_at != frame) {
            ASSIGN_OR_RETURN(const auto read, m_reader.frame(frame));
            m_image = imageOf(read.picture);
            m_at = frame;
        }
        return m_image;
    }

private:
    explicit SideFrames(ClipReader reader) : m_reader(std::move(reader)) {}

    ClipReader m_reader;
    std::optional<FrameNumber> m_at;
    QImage m_image;
};

Outcome<std::vector<QImage>> framesAt(std::vector<SideFrames>& sides, const FilmPlan& plan,
                                      std::size_t at)
{
    std::vector<QImage> images;
    for (std::size_t i = 0; i < sides.size(); ++i) {
        ASSIGN_OR_RETURN(auto image, sides[i].image(plan.sides[i].shots[at].still.frame));
        images.push_back(std::move(image));
    }
    return images;
}

bool isAsBefore(const FilmPlan& plan, std::size_t at)
{
    return at > 0 && std::ranges::all_of(plan.sides, [at](const FilmPlan::Side& side) {
               return side.shots[at] == side.shots[at - 1];
           });
}

Outcome<void> addAll(FilmWriter& writer, const FilmPlan& plan,
                     const std::function<bool(double)>& goOn)
{
    std::vector<SideFrames> sides;
    for (const FilmPlan::Side& side : plan.sides) {
        ASSIGN_OR_RETURN(auto frames, SideFrames::of(side));
        sides.push_back(std::move(frames));
    }
    QImage picture;
    const std::size_t count = plan.sides.front().shots.size();
    for (std::size_t at = 0; at < count; ++at) {
        if (goOn && !goOn(static_cast<double>(at) / static_cast<double>(count))) {
            return fail(Error::Kind::Cancelled, "Stopped: no film was written.");
        }
        if (!isAsBefore(plan, at)) {
            ASSIGN_OR_RETURN(const auto frames, framesAt(sides, plan, at));
            picture = filmPicture(plan, at, frames);
        }
        RETURN_IF_ERROR(
            writer.add(picture.constBits(), static_cast<std::size_t>(picture.bytesPerLine())));
    }
    return {};
}

} // namespace

Outcome<void> writeFilm(const FilmPlan& plan, const std::filesystem::path& file,
                        const std::function<bool(double)>& goOn)
{
    const QSize size = filmSize(plan);
    ASSIGN_OR_RETURN(auto writer, FilmWriter::begin(file, size.width(), size.height(), filmRate));
    RETURN_IF_ERROR(addAll(writer, plan, goOn));
    return writer.finish();
}

} // namespace latemile::ui
