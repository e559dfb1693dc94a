// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/film/film_plan.hpp"

#include <QImage>
#include <QSize>

#include <vector>

namespace latemile::ui {

/// Size of a film's pictures in pixels; even, as films want it. Sides stand beside each other, each
/// with a line of words above it.
[[nodiscard]] QSize filmSize(const FilmPlan& plan);

/// One picture of a film. `frames`: the whole upright picture of each side's shot.
[[nodiscard]] QImage filmPicture(const FilmPlan& plan, std::size_t at,
                                 const std::vector<QImage>& frames);

} // namespace latemile::ui
