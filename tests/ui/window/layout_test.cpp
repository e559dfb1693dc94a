// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/layout_checks.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/page_list.hpp"

using namespace latemile::ui;

TEST_CASE("no page clips a label or lays controls over each other", "[ui][layout]")
{
    const QSize size = GENERATE(QSize(1280, 800), QSize(1920, 1080));
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    window.resize(size);
    QStringList pages{QStringLiteral("athletes")};
    for (const PageEntry& entry : pageList()) {
        pages.append(QString::fromLatin1(entry.id));
    }
    for (const QString& page : pages) {
        window.showPage(page);
        settle(window, 6000);
        INFO(page.toStdString() << " at " << size.width() << " x " << size.height());
        REQUIRE(window.size() == size);
        CHECK(clippedIn(window).join(u'\n').toStdString() == "");
        CHECK(overlapsIn(window).join(u'\n').toStdString() == "");
        CHECK(namelessIn(window).join(u'\n').toStdString() == "");
    }
}
