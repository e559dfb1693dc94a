// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/film/film_work.hpp"

#include "ui/film/film_maker.hpp"

namespace latemile::ui {

void FilmWork::make(const FilmPlan& plan, const std::filesystem::path& file)
{
    start<std::filesystem::path>(
        [plan, file](const Tell& tell) -> Outcome<std::filesystem::path> {
            RETURN_IF_ERROR(writeFilm(plan, file, tell));
            return file;
        },
        [this](const std::filesystem::path& done) {
            emit made(QString::fromStdString(done.string()));
        });
}

} // namespace latemile::ui
