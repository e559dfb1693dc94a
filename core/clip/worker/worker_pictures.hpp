// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/open_clip.hpp"
#include "core/clip/worker/worker_session.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace latemile {

/// The pictures of a clip that a worker decodes. Where the worker dies another one takes its place
/// and is asked again; what was decoded before stays.
class WorkerPictures final : public DecodedPictures {
public:
    Outcome<SharedAvFrame> picture(std::int64_t rank, const Passing& passing) override;
    [[nodiscard]] std::int64_t groupStart(std::int64_t rank) const override;
    [[nodiscard]] std::vector<std::int64_t> groupStarts() const override { return m_starts; }
    [[nodiscard]] std::int64_t count() const override { return std::ssize(m_starts); }
    void giveUp() override;

private:
    friend Outcome<OpenClip> openInWorker(const ClipFile& file, const ClipOptions& options,
                                          const WorkerTerms& terms);
    WorkerPictures(const ClipFile& file, const ClipOptions& options, const WorkerTerms& terms);
    Outcome<OpeningAnswer> begin(const ClipOptions& options);
    Outcome<void> beginAgain();
    [[nodiscard]] bool isBeyondBreakdown(std::int64_t rank) const;

    ClipFile m_file;
    ClipOptions m_options; ///< without `goOn`, which is for the first opening alone
    WorkerTerms m_terms;
    Descriptor m_stop; ///< can be read once this was given up
    std::vector<std::int64_t> m_starts;
    UprightShape m_shape;
    std::vector<Seconds> m_times;
    std::optional<WorkerSession> m_session; ///< none after its worker ended
    PictureTaker m_taker;
    std::vector<std::int64_t> m_breakdowns; ///< ranks on which workers in a row died
};

[[nodiscard]] Outcome<OpenClip> openInWorker(const ClipFile& file, const ClipOptions& options,
                                             const WorkerTerms& terms);

} // namespace latemile
