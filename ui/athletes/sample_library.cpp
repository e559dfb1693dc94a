// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/sample_library.hpp"

#include <QCoreApplication>
#include <QStandardPaths>

namespace latemile::ui {

std::filesystem::path sampleFolder()
{
    const std::filesystem::path program = QCoreApplication::applicationDirPath().toStdString();
    const auto installed = program / ".." / "share" / "latemile" / "sample_clips" / "ilse-varga";
    std::error_code ignored;
    return std::filesystem::exists(installed, ignored)
               ? installed
               : program / ".." / ".." / ".." / "sample_clips" / "ilse-varga";
}

std::filesystem::path ownLibrary()
{
    const QString data = QStandardPaths::writableLocation(QStandardPaths::AppDataLocation);
    return std::filesystem::path(data.toStdString()) / "library";
}

Outcome<std::filesystem::path> addSampleAthlete(const std::filesystem::path& library)
{
    const auto from = sampleFolder();
    const auto to = library / "ilse-varga";
    std::error_code fault;
    std::filesystem::create_directories(library, fault);
    std::filesystem::copy(from, to,
                          std::filesystem::copy_options::recursive |
                              std::filesystem::copy_options::skip_existing,
                          fault);
    if (fault) {
        return fail(Error::Kind::NotFound,
                    "The sample athlete could not be copied into your library.", fault.message());
    }
    return to / "2026-08-29";
}

} // namespace latemile::ui
