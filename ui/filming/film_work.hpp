// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/long_work.hpp"

#include <filesystem>

namespace latemile::ui {

/// Tells in the background whether a clip's file is still the film that came in, by its checksum.
class FilmCheck final : public LongWork {
    Q_OBJECT
public:
    explicit FilmCheck(QObject* parent) : LongWork(parent) {}
    void check(const std::filesystem::path& clip);

signals:
    void checked(bool isOriginal); ///< true also where no checksum was written down
};

/// Looks in the background for the film of a linked clip, and links it anew.
class FilmSearch final : public LongWork {
    Q_OBJECT
public:
    explicit FilmSearch(QObject* parent) : LongWork(parent) {}
    void search(const std::filesystem::path& clip, const std::filesystem::path& folder);

signals:
    void found(const QString& film);
};

} // namespace latemile::ui
