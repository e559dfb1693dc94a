// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_index.hpp"

#include <set>
#include <vector>

namespace latemile::ui {

/// What of a clip is looked at next, and for what. A clip nobody has marked yet is looked at in the
/// order in which its coach can work: a stride thinly, for the contacts of the first steps; the
/// frames of their cells; the whole clip thinly, for all other contacts; their cells; the rest.
struct NextLooks {
    enum class For { Cells, FirstSteps, Contacts, Rest };
    For what{};
    std::vector<FrameNumber> frames; ///< none: all is looked at already
    bool isLast{}; ///< every frame is looked at after it, and nothing waits for it

    [[nodiscard]] bool areForContacts() const
    {
        return what == For::FirstSteps || what == For::Contacts;
    }
};

/// What is known of the clip.
struct LookedAt {
    std::set<FrameNumber> frames;   ///< already looked at
    std::vector<FrameNumber> cells; ///< that the coach is asked to mark; in order, each once
    FrameNumber start;              ///< where the runner was shown: the first stride is there
    bool findsContacts{};           ///< nobody has marked any
};

[[nodiscard]] NextLooks nextLooks(const FrameIndex& index, const LookedAt& known);

} // namespace latemile::ui
