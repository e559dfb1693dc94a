// SPDX-License-Identifier: GPL-3.0-or-later
#if !__has_include(<catch2/catch_all.hpp>)
#define CATCH_CONFIG_RUNNER
#endif
#include "tests/catch.hpp"
#include "ui/theme/theme.hpp"

#include <QApplication>
#include <QStandardPaths>

int main(int argc, char* argv[])
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("Latemile"));
    QCoreApplication::setApplicationName(QStringLiteral("latemile-window-test"));
    QApplication application(argc, argv);
    latemile::ui::applyTheme(application, latemile::ui::ThemeChoice::Light);
    return Catch::Session().run(argc, argv);
}
