// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_facts.hpp"
#include "core/outcome.hpp"
#include "core/propose/crop.hpp"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <optional>

namespace latemile::batch {

/// --box X,Y,W,H: round the runner, pixels of the upright picture.
void addBox(CLI::App& word, std::optional<Box>& box, const std::string& help);

/// A fault for a box that lies outside the picture.
Outcome<void> needInside(const std::optional<Box>& box, const std::filesystem::path& clip,
                         const ClipFacts& facts);

} // namespace latemile::batch
