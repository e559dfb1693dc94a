// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/marks/click_errors.hpp"
#include "core/marks/marking.hpp"

#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace latemile {

/// What is to be followed.
struct FollowOptions {
    std::optional<FrameNumber> first; ///< none: the clip's first frame
    std::optional<FrameNumber> last;
    ClickErrors clicks{}; ///< error of a placed mark that states none
    /// Asked now and then with the share done, 0 to 1; false stops (Error::Kind::Cancelled).
    std::function<bool(double)> goOn{};
};

/// Frames on which a landmark could not be followed, or not surely.
struct FollowGap {
    enum class Kind {
        Lost,     ///< no mark: covered, out of the picture, or too far from any placed mark
        Bridged,  ///< not seen for a short while: interpolated between what was seen
        Doubtful, ///< from before and from behind two different places were found
    };
    Kind kind{};
    BodySide side{};
    Landmark landmark{};
    FrameNumber first;
    FrameNumber last;
    bool operator==(const FollowGap&) const = default;
};
[[nodiscard]] std::string_view nameOf(FollowGap::Kind kind); ///< "lost", "bridged", "doubtful"
/// "The near wrist was lost on frames 12 to 40."
[[nodiscard]] std::string sentenceOf(const FollowGap& gap);

struct FollowResult {
    /// Followed marks alone, each with its standard error; where a mark was placed there is none.
    std::map<MarkKey, Mark> marks;
    std::vector<FollowGap> gaps; ///< by side and landmark, in order of frame
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
