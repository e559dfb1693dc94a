// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <string>

namespace latemile {

/// READINGS.json and READINGS.csv, as resources/schema/readings.schema.json describes them.
[[nodiscard]] nlohmann::json toJson(const Readings& readings);
[[nodiscard]] std::string readingsCsv(const Readings& readings);
/// What toJson wrote, back; faults name file and field.
Outcome<Readings> readReadings(const std::filesystem::path& file);

} // namespace latemile
