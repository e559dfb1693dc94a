// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/long_work.hpp"

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <utility>

namespace latemile::ui {

/// Tells in the background whether a clip's file is still the film that came in, by its checksum.
class FilmCheck final : public LongWork {
    Q_OBJECT
public:
    explicit FilmCheck(QObject* parent) : LongWork(parent) {}
    /// A file that was checked before and is as long and as old as then is not read again.
    void check(const std::filesystem::path& clip);

signals:
    void checked(bool isOriginal); ///< true also where no checksum was written down

private:
    struct State {
        std::uintmax_t size{};
        std::filesystem::file_time_type written{};
        bool operator==(const State&) const = default;
    };
    static std::optional<State> stateOf(const std::filesystem::path& clip);

    std::map<std::filesystem::path, std::pair<State, bool>> m_known;
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
