// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_clips/maker/truth.hpp"

namespace latemile::maker {

/// Every side-view measure the model can tell, step by step, worked out from the moving body itself
/// and from nothing of the core, so that tests can hold one against the other. Measures of the leg
/// come from the near foot's steps, of the upper body from both feet's steps (near landmarks),
/// timings from both feet. `truth` needs its contacts and times.
[[nodiscard]] std::vector<TruthReading> sideReadings(const Truth& truth, const RunnerModel& model);

} // namespace latemile::maker
