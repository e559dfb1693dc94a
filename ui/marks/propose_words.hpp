// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/marking.hpp"

#include <QString>
#include <QStringList>

#include <optional>

namespace latemile::ui {

class ClipDocument;
class Keys;
struct ProposeResult;

/// "Landmarks proposed on 408 frames; doubtful: 12 of 3672 points."
[[nodiscard]] QString proposeSummary(const ProposeResult& result);
/// What is to be known about them: sentences, and how many points are doubtful for which reason.
[[nodiscard]] QStringList proposalRemarks(const ProposeResult& result);
/// "Near and far leg are exchanged from 1.234 s to 2.350 s; what you placed stays."
[[nodiscard]] QString exchangedText(const ClipDocument& clip, FrameNumber from,
                                    const std::optional<FrameNumber>& to);
/// Why a row is not accepted by one key, with the bound.
[[nodiscard]] QString rowRefusedText(const MarkKey& key, double sePx, double boundPx,
                                     const Keys& keys);
/// Why a cell or a row is not accepted before its contact and toe-off are.
[[nodiscard]] QString eventsRefusedText(Seconds se, Seconds bound, const Keys& keys);

} // namespace latemile::ui
