// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/csv.hpp"
#include "core/json_file.hpp"
#include "tests/project_folders.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>

namespace latemile::testing {

/// A file of tests/outside/data: values not made by our code, each with its source inside.
inline std::filesystem::path referenceFile(const std::string& name)
{
    return tests::sourceFolder() / "tests/outside/data" / name;
}

inline nlohmann::json referenceJson(const std::string& name)
{
    return readJsonFile(referenceFile(name)).value();
}

} // namespace latemile::testing
