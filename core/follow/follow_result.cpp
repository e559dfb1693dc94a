// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/follow_result.hpp"

#include <array>

namespace latemile {

std::string_view nameOf(FollowGap::Kind kind)
{
    constexpr std::array<std::string_view, 3> names{"lost", "bridged", "doubtful"};
    return names[static_cast<std::size_t>(kind)];
}

std::string sentenceOf(const FollowGap& gap)
{
    constexpr std::array<std::string_view, 3> said{"was lost", "was covered and bridged",
                                                   "is doubtful"};
    auto words = "The " + std::string(nameOf(gap.side)) + " " + std::string(nameOf(gap.landmark)) +
                 " " + std::string(said[static_cast<std::size_t>(gap.kind)]) + " on frame";
    words += gap.first == gap.last
                 ? " " + std::to_string(gap.first.value)
                 : "s " + std::to_string(gap.first.value) + " to " + std::to_string(gap.last.value);
    return words + ".";
}

} // namespace latemile
