// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/prepared_clip.hpp"

namespace latemile {

/// A clip as it is marked, and as it would be had nobody but the coach marked it. What the coach
/// stands behind is read from the second alone: no proposed or followed mark and no event that was
/// only found has a say in it, be it as the frame before an event, in a length of the whole clip or
/// by the frame it chooses. A found stance between two of the coach's takes away what would be read
/// from the one to the other, and makes nothing.
struct PreparedTwice {
    PreparedClip all;
    std::optional<PreparedClip> confirmed; ///< none: all of it is confirmed
    std::vector<std::size_t> places;       ///< in the steps of `all`, one a step of `confirmed`

    /// What is read where the coach's word is asked for.
    [[nodiscard]] const PreparedClip& coachs() const { return confirmed ? *confirmed : all; }
    /// The step of `confirmed` that is this one of `all`; nothing where it is not confirmed.
    [[nodiscard]] std::optional<std::size_t> confirmedStep(std::size_t step) const;
};

/// Errors are those of prepare().
Outcome<PreparedTwice> prepareTwice(const MarkedClip& clip);

/// Only what the coach placed or confirmed.
[[nodiscard]] Marking confirmedPart(const Marking& marking);

} // namespace latemile
