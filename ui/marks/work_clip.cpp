// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/work_clip.hpp"

namespace latemile::ui {
namespace {

/// Of the whole: reading the headers is over before the pictures are looked at.
constexpr double openingShare = 0.05;

} // namespace

Outcome<ClipReader> openForWork(const std::filesystem::path& file, ClipOptions options,
                                const WorkGoesOn& goesOn)
{
    options.goOn = [&goesOn](double share) { return goesOn(openingShare * share); };
    return ClipReader::open(file, options);
}

WorkGoesOn afterOpening(const WorkGoesOn& goesOn)
{
    return [&goesOn](double share) { return goesOn(openingShare + (1.0 - openingShare) * share); };
}

} // namespace latemile::ui
