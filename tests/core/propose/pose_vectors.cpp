// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/propose/pose_vectors.hpp"

#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"

namespace latemile::tests {

nlohmann::json poseVectors()
{
    return nlohmann::json::parse(
        bytesOf(sourceFolder() / "tests/core/propose/data/pose_vectors.json"));
}

} // namespace latemile::tests
