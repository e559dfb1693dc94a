// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/seen_runner.hpp"

#include "core/propose/leg_turns.hpp"
#include "core/propose/looks_file.hpp"
#include "core/propose/runner_search.hpp"

namespace latemile::batch {

namespace {

Outcome<BodyPaths> lookedAt(ClipReader& clip, const std::filesystem::path& file,
                            PoseNetworks& networks, const std::vector<FrameNumber>& frames,
                            const std::optional<Box>& box, std::optional<View> view)
{
    const auto width = clip.facts().width;
    const auto height = clip.facts().height;
    if (!box) {
        if (const auto kept = looksOf(clip.index(), file, frames)) {
            ASSIGN_OR_RETURN(auto paths, bodyPathsFrom(kept->found, view, width, height));
            exchangeLegs(paths, kept->turns);
            return paths;
        }
    }
    ASSIGN_OR_RETURN(auto* const network, networks.of(0));
    const auto read = [&clip](FrameNumber frame) { return clip.frame(frame); };
    ASSIGN_OR_RETURN(const auto found, searchClip(read, clip.index(), *network, frames, box, {}));
    return bodyPathsFrom(found, view, width, height);
}

} // namespace

Outcome<BodyPaths> seenRunner(ClipReader& clip, const std::filesystem::path& file,
                              PoseNetworks& networks, const std::vector<FrameNumber>& frames,
                              const std::optional<Box>& box, std::optional<View> view)
{
    ASSIGN_OR_RETURN(auto paths, lookedAt(clip, file, networks, frames, box, view));
    const auto& remarks = clip.facts().remarks;
    paths.remarks.insert(paths.remarks.begin(), remarks.begin(), remarks.end());
    return paths;
}

} // namespace latemile::batch
