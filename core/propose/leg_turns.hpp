// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/body_paths.hpp"

#include <map>
#include <optional>
#include <set>

namespace latemile {

/// Frames from which on, says the coach, near and far leg are the other way round than just before.
using LegTurns = std::set<FrameNumber>;

/// From `from` up to, not with, `to` the legs are exchanged; asked for twice, they are as before.
/// `to` none: to the end of the clip.
[[nodiscard]] LegTurns withExchange(LegTurns turns, FrameNumber from,
                                    std::optional<FrameNumber> to);

/// The paths of knee, ankle, heel and toe with the turns made, near for far.
void exchangeLegs(BodyPaths& paths, const LegTurns& turns);

/// The frame behind `from` at which the exchange of legs that begins there ends: the next turn
/// already made, or else the next frame on which the marks themselves go over to the other leg;
/// none: neither follows, it goes on to the clip's end.
[[nodiscard]] std::optional<FrameNumber> endOfExchange(const Marking& marking,
                                                       const LegTurns& turns, FrameNumber from);

/// What becomes of the marks of both legs from `from` up to, not with, `to`: near and far change
/// places. Nothing for a key takes its mark away. A pair with a placed mark stays as it is.
[[nodiscard]] std::map<MarkKey, std::optional<Mark>>
exchangedLegMarks(const Marking& marking, FrameNumber from, std::optional<FrameNumber> to);

} // namespace latemile
