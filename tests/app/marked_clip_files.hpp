// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace latemile::tests {

/// A clip of moving stripes with all the files `measure` wants, written without any of our own
/// code: 320 x 240 pixels, 3 s at 120 frames/s, a runner who goes left and holds one posture.
///
/// The scene: 200 px are 100 cm, so a pixel is 0.5 cm. Each step lasts 0.35 s (171.43 steps/min),
/// each stance 0.25 s. At every instant marked, the near ankle is 40 px ahead of the hip: 20 cm.
struct MarkedClipFiles {
    ScratchFolder folder;
    std::string clip;
    std::string marks;
    std::string contacts;
    std::string scene;
    std::string athlete;

    MarkedClipFiles();

    /// "measure CLIP --marks ... --contacts ... --scene ... --athlete ..."
    [[nodiscard]] std::vector<std::string> measureArguments() const;
    /// A session of that clip, once fresh and once fatigued, in the folder ATHLETE/DATE; gives its
    /// path.
    [[nodiscard]] std::string sessionFolder() const;
};

/// The lines of MARKS.csv, CONTACTS.csv and the document of SCENE.json written there, to be
/// damaged by a test.
[[nodiscard]] std::vector<std::string> markLines();
[[nodiscard]] std::vector<std::string> contactLines();
[[nodiscard]] nlohmann::json sceneDocument();
[[nodiscard]] std::string joined(const std::vector<std::string>& lines);

} // namespace latemile::tests
