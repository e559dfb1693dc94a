// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/field_filter.hpp"
#include "core/clip/frame_pictures.hpp"
#include "core/clip/libav_owners.hpp"

#include <map>

namespace latemile {

/// The fields of an interlaced clip as whole pictures, by libavfilter's bwdif: field 2n and 2n + 1
/// are the earlier and the later field of frame n. The filter looks at one frame before and one
/// after; it is fed the same neighbours whatever field is asked for, so that a field is exactly
/// what reading from the start gives.
class FieldPictures final : public DecodedPictures {
public:
    static Outcome<std::unique_ptr<FieldPictures>> open(std::unique_ptr<FramePictures> frames);

    Outcome<SharedAvFrame> picture(std::int64_t rank, const Passing& passing) override;
    [[nodiscard]] std::int64_t groupStart(std::int64_t rank) const override;
    [[nodiscard]] std::vector<std::int64_t> groupStarts() const override;
    [[nodiscard]] std::int64_t count() const override { return m_frames->count() * 2; }

private:
    FieldPictures(std::unique_ptr<FramePictures> frames, const FieldFilter& filter);
    [[nodiscard]] bool canGoOnTo(std::int64_t frame) const;
    Outcome<void> restartAt(std::int64_t frame, const AVFrame& like);
    Outcome<void> feed(std::int64_t frame, const SharedAvFrame& picture);
    Outcome<void> feedUpTo(std::int64_t frame, std::int64_t first, const Passing& passing);
    Outcome<void> drain();
    bool collect(const Passing& passing);

    std::unique_ptr<FramePictures> m_frames;
    const FieldFilter& m_filter;
    AvFilterGraph m_graph;
    AVFilterContext* m_in = nullptr;  // owned by m_graph
    AVFilterContext* m_out = nullptr; // owned by m_graph
    std::int64_t m_firstFed = Presentation::none;
    std::int64_t m_lastFed = Presentation::none;
    std::map<std::int64_t, SharedAvFrame> m_ready; // fields that came out, the newest few
};

} // namespace latemile
