// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/film/film_plan.hpp"
#include "core/outcome.hpp"

#include <filesystem>
#include <functional>

namespace latemile::ui {

/// Makes the film picture by picture and writes it: whole or not at all. `goOn` is asked before
/// each picture with the share done, 0 to 1; false stops the work (Error::Kind::Cancelled). Takes a
/// tenth of a second a picture or less; any thread. Needs a QGuiApplication. A clip or frame that
/// cannot be read is an Error naming the file.
Outcome<void> writeFilm(const FilmPlan& plan, const std::filesystem::path& file,
                        const std::function<bool(double)>& goOn = {});

} // namespace latemile::ui
