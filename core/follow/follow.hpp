// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/follow/follow_result.hpp"
#include "core/follow/followed_flow.hpp"
#include "core/marks/click_errors.hpp"

#include <functional>
#include <memory>
#include <optional>

namespace latemile {

/// What is to be followed.
struct FollowOptions {
    std::optional<FrameNumber> first; ///< none: the clip's first frame
    std::optional<FrameNumber> last;
    ClickErrors clicks{}; ///< error of a placed mark that states none
    /// Asked now and then with the share done, 0 to 1; false stops (Error::Kind::Cancelled).
    std::function<bool(double)> goOn{};
};

/// Carries placed marks through a clip. From every frame with placed marks they are carried
/// straight to the frames on which the runner stands alike, a stride and more away, and from all
/// these on from frame to frame, forwards and backwards; both ways are joined by their errors.
/// Paths are smoothed without lag, each landmark at the frequency its own noise asks for; placed
/// marks are never moved. Of a far side the foot alone is followed, for its contacts.
class Follower {
public:
    /// Reads the pictures of the stretch. Without a placed mark in it: Error::Kind::Inconsistent.
    static Outcome<Follower> open(ClipReader& clip, const Marking& marking,
                                  const FollowOptions& options);
    Follower(Follower&&) noexcept;
    Follower& operator=(Follower&&) noexcept;
    ~Follower();

    /// `marking` of the same clip; its followed and proposed marks are not looked at.
    [[nodiscard]] Outcome<FollowResult> follow(const Marking& marking) const;

private:
    struct Inside;
    explicit Follower(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

/// Both in one: reads and follows.
Outcome<FollowResult> followMarks(ClipReader& clip, const Marking& marking,
                                  const FollowOptions& options = {});

} // namespace latemile
