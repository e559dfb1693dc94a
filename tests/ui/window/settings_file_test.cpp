// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/settings_file.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <QCoreApplication>
#include <QSettings>

using namespace latemile::tests;

namespace {

/// Settings below a folder of the test's own, in the window's format.
struct Kept : ScratchFolder {
    Kept()
    {
        QCoreApplication::setOrganizationName("Latemile");
        QCoreApplication::setApplicationName("latemile");
        for (const auto format : {QSettings::NativeFormat, QSettings::IniFormat}) {
            QSettings::setPath(format, QSettings::UserScope,
                               QString::fromStdString(path().string()));
        }
    }
    ~Kept() { QSettings::setDefaultFormat(QSettings::NativeFormat); }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;

    std::filesystem::path old = *this / "Latemile/latemile.conf";
    std::filesystem::path now = *this / "Latemile/latemile.json";
};

} // namespace

TEST_CASE("settings come back as they were kept", "[settings]")
{
    const Kept kept;
    latemile::ui::keepSettingsWhole();
    const QByteArray bytes("\0\xff=\n", 4);
    const QVariantList lengths{QVariantMap{{"name", "pole"}, {"cm", 200.5}}};
    {
        QSettings settings;
        settings.setValue("window/geometry", bytes);
        settings.setValue("filming/lengths", lengths);
        settings.setValue("recent", QStringList{"a, b.mp4", "\u00dcbung.mp4"});
        settings.setValue("scale", 150);
        settings.setValue("window/names_hidden", true);
    }
    CHECK_THAT(bytesOf(kept.now), containing("\"scale\": 150"));
    const QSettings settings;
    CHECK((settings.value("window/geometry").toByteArray() == bytes));
    CHECK((settings.value("filming/lengths").toList() == lengths));
    CHECK((settings.value("recent").toStringList() == QStringList{"a, b.mp4", "\u00dcbung.mp4"}));
    CHECK(settings.value("scale").toInt() == 150);
    CHECK(settings.value("window/names_hidden").toBool());
}

TEST_CASE("settings of an earlier version are taken over, and their file goes", "[settings]")
{
    const Kept kept;
    (void)kept.file("Latemile/latemile.conf", "[window]\ngeometry=@ByteArray(\\0\\x1z)\n"
                                              "names_hidden=true\n[sheet]\ncoach=R. Vale\n");
    latemile::ui::keepSettingsWhole();
    const QSettings settings;
    CHECK((settings.value("window/geometry").toByteArray() == QByteArray("\0\1z", 3)));
    CHECK(settings.value("window/names_hidden").toBool());
    CHECK((settings.value("sheet/coach").toString() == "R. Vale"));
    CHECK_FALSE(std::filesystem::exists(kept.old));
}

TEST_CASE("a file of settings that cannot be read is begun anew", "[settings]")
{
    const Kept kept;
    (void)kept.file("Latemile/latemile.json", "{\"scale\": 15");
    latemile::ui::keepSettingsWhole();
    CHECK_FALSE(QSettings().contains("scale"));
    QSettings().setValue("scale", 125);
    CHECK_THAT(bytesOf(kept.now), containing("\"scale\": 125"));
}
