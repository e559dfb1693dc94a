// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/film/film_plan.hpp"
#include "ui/document/long_work.hpp"

#include <filesystem>

namespace latemile::ui {

/// Makes a film behind the window.
class FilmWork final : public LongWork {
    Q_OBJECT
public:
    explicit FilmWork(QObject* parent) : LongWork(parent) {}
    void make(const FilmPlan& plan, const std::filesystem::path& file);

signals:
    void made(const QString& file);
};

} // namespace latemile::ui
