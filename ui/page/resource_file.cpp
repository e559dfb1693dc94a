// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/resource_file.hpp"

#include <QCoreApplication>

namespace latemile::ui {

std::filesystem::path resourceFile(const char* name)
{
    const std::filesystem::path program = QCoreApplication::applicationDirPath().toStdString();
    const auto installed = program / ".." / "share" / "latemile" / name;
    std::error_code ignored;
    return std::filesystem::exists(installed, ignored)
               ? installed
               : program / ".." / ".." / ".." / "resources" / name;
}

} // namespace latemile::ui
