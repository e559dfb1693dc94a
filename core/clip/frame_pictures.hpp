// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/damage.hpp"
#include "core/clip/decoded_pictures.hpp"
#include "core/clip/frame_decoder.hpp"
#include "core/clip/presentation.hpp"

#include <string>
#include <vector>

namespace latemile {

/// Finds each frame of a clip: decodes on from the last one where that is shorter, else from the
/// key frame that the frame needs.
class FramePictures final : public DecodedPictures {
public:
    /// Reads all packets and decodes the first frame. `remarks` gets what the coach should know;
    /// `goOn` as in ClipOptions.
    static Outcome<std::unique_ptr<FramePictures>>
    open(OpenedFile file, std::vector<std::string>& remarks,
         const std::function<bool(double)>& goOn = {});

    Outcome<SharedAvFrame> picture(std::int64_t rank, const Passing& passing) override;
    [[nodiscard]] std::int64_t groupStart(std::int64_t rank) const override;
    [[nodiscard]] std::vector<std::int64_t> groupStarts() const override;
    [[nodiscard]] std::int64_t count() const override { return m_order.frames(); }

    [[nodiscard]] const OpenedFile& file() const { return m_decoder.file(); }
    [[nodiscard]] const PacketIndex& index() const { return m_decoder.index(); }
    [[nodiscard]] const Presentation& order() const { return m_order; }
    [[nodiscard]] const AVFrame& firstFrame() const { return *m_first; }

private:
    FramePictures(FrameDecoder decoder, Presentation order);
    Outcome<void> decodeForOrder(const std::function<bool(double)>& goOn);
    Outcome<void> decodeFirst(std::vector<std::string>& remarks);
    [[nodiscard]] std::vector<std::int64_t> firstKeys(std::size_t most) const;
    Outcome<bool> anyDecodes(const std::vector<std::int64_t>& keys);
    struct Start;
    Outcome<Start> decodeStart();
    void leaveOut(std::vector<std::int64_t> came, std::int64_t last,
                  std::vector<std::string>& remarks);

    [[nodiscard]] bool canGoOnTo(std::int64_t rank) const;
    Outcome<void> beginFor(std::int64_t rank);
    struct Step;
    Outcome<Step> step();
    Outcome<SharedAvFrame> runTo(std::int64_t rank, const Passing& passing);
    void noteGap(std::int64_t from, std::int64_t to);
    [[nodiscard]] tl::unexpected<Error> damagedAt(std::int64_t rank) const;

    FrameDecoder m_decoder;
    Presentation m_order;
    Damage m_damage;
    SharedAvFrame m_first;
    std::int64_t m_runStart = Presentation::none; ///< key packet at which the present run began
    std::int64_t m_lastRank = Presentation::none; ///< the last frame the present run gave
    SharedAvFrame m_last;
};

} // namespace latemile
