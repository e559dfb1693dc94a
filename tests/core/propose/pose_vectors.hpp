// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

namespace latemile::tests {

/// The expected numbers of data/pose_vectors.json: those of the network were made by a forward pass
/// in numpy straight from the .tflite file, those of the geometry by arithmetic.
nlohmann::json poseVectors();

} // namespace latemile::tests
