// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "core/marks/marking.hpp"
#include "core/propose/body_paths.hpp"
#include "core/scene/scene.hpp"

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <utility>

namespace latemile::bench {

template <class T>
T need(Outcome<T> outcome)
{
    if (!outcome) {
        std::fprintf(stderr, "%s\n", outcome.error().sentence.c_str());
        std::exit(1);
    }
    return *std::move(outcome);
}

/// What is exactly known of a rendered clip, of either kind.
struct Truth {
    std::map<MarkKey, PixelPoint> at; ///< both sides
    std::vector<Stance> stances;      ///< of both feet
    Foot nearFoot{};
    double pixelsPerCm{};
    Scene scene;
};

/// Of our maker's clips (marks, contacts and scene stand beside them) or the sample athlete's.
[[nodiscard]] Truth truthOf(const std::filesystem::path& clip, const ClipReader& reader);

/// The marks a coach places for one step: contact, mid-stance, toe-off and mid-swing of the first
/// whole near stride, each on the searched frame nearest to it, each moved by its click's default
/// error times `noise`.
[[nodiscard]] std::map<MarkKey, Mark> oneStep(const Truth& truth, const BodyPaths& paths,
                                              double noise = 0.0, unsigned seed = 1);

} // namespace latemile::bench
