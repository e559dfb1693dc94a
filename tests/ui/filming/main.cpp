// SPDX-License-Identifier: GPL-3.0-or-later
#if !__has_include(<catch2/catch_all.hpp>)
#define CATCH_CONFIG_RUNNER
#endif
#include "tests/catch.hpp"
#include "ui/theme/theme.hpp"

#include <QApplication>
#include <QSettings>
#include <QTemporaryDir>

int main(int argc, char* argv[])
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QCoreApplication::setOrganizationName(QStringLiteral("Latemile"));
    QCoreApplication::setApplicationName(QStringLiteral("latemile-filming-test"));
    // What a coach's settings hold is neither read nor changed.
    const QTemporaryDir settings;
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings.path());
    QApplication application(argc, argv);
    latemile::ui::applyTheme(application, latemile::ui::ThemeChoice::Light);
    return Catch::Session().run(argc, argv);
}
