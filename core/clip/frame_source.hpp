// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"

#include <cstddef>
#include <functional>
#include <memory>

namespace latemile {

/// Decodes one clip on a thread of its own and keeps decoded frames within a memory budget: it
/// reads ahead in the direction of travel and keeps the whole group of pictures behind the play
/// head, so that a step back costs what a step forward costs. Asking never waits; the newest
/// question wins.
class FrameSource {
public:
    using Answer = std::function<void(Outcome<Frame>)>;

    /// A quarter of the machine's memory, at most 2 GiB.
    [[nodiscard]] static std::size_t defaultBudget();

    static Outcome<std::unique_ptr<FrameSource>> open(const std::filesystem::path& file,
                                                      const ClipOptions& options = {},
                                                      std::size_t budgetBytes = defaultBudget());
    ~FrameSource(); ///< waits for the frame being decoded, drops the question not yet answered

    [[nodiscard]] const ClipFacts& facts() const; ///< from any thread
    [[nodiscard]] const FrameIndex& index() const;
    /// From any thread. `answer` is called once, on the source's own thread, unless a newer
    /// question replaced this one or the source ended first.
    void ask(FrameNumber frame, Answer answer);
    /// For a small picture: answered when nobody asks and what lies around the play head is read.
    /// Moves no play head and gives way to every question, so that a coach's key never waits for
    /// it. A newer one replaces one not yet answered.
    void askAside(FrameNumber frame, Answer answer);
    /// The frame if it is held already (converted on the caller's thread), else nothing. Never
    /// decodes.
    [[nodiscard]] std::optional<Frame> held(FrameNumber frame) const;
    /// Waits: for programs without a window.
    Outcome<Frame> frame(FrameNumber frame);

private:
    struct Inside;
    explicit FrameSource(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
