// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"
#include "tests/ui/filming/filming_fixture.hpp"
#include "tests/ui/sheet/poppler.hpp"
#include "ui/filming/remark_list.hpp"
#include "ui/filming/set_up_view.hpp"

#include <QAbstractButton>
#include <QImage>
#include <QPainter>
#include <QSpinBox>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// 1280 x 720 that show 4 m at 4 m: a pixel is 0.3125 cm.
void setFourMetres(FilmingCoach& coach)
{
    coach.type(QStringLiteral("Distance to the runner"), 4.0);
    coach.choose(QStringLiteral("How the lens is known"),
                 QStringLiteral("Width seen at the runner"));
    coach.type(QStringLiteral("Lens"), 400.0);
    coach.choose(QStringLiteral("Picture"), QStringLiteral("1280 × 720"));
    coach.type(QStringLiteral("Frame rate"), 240);
    coach.type(QStringLiteral("Speed"), 3.0);
}

void setShutter(const FilmingPage& page, int denominator)
{
    page.setUp().findChild<QSpinBox*>()->setValue(denominator);
}

} // namespace

TEST_CASE("without a clip the page shows how to set up, later a key brings it back", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    CHECK(page.showsSetUp());
    CHECK(textsOf(page).contains(QStringLiteral("Drag video files")));
    coach.drop({sampleClip("2026-08-29", "fresh.mp4")}, 1);
    CHECK_FALSE(page.showsSetUp());
    coach.key(Qt::Key_U);
    CHECK(page.showsSetUp());
    coach.key(Qt::Key_U);
    CHECK_FALSE(page.showsSetUp());
}

TEST_CASE("the calculator's numbers on screen are those of arithmetic by hand", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    setFourMetres(coach);
    setShutter(page, 500);
    const QString texts = textsOf(page.setUp());
    CAPTURE(texts.toStdString());
    CHECK(texts.contains(QStringLiteral("0.31\u00a0cm")));     // 400 / 1280
    CHECK(texts.contains(QStringLiteral("4.0 × 2.3\u00a0m"))); // 720 * 0.3125 = 225 cm
    CHECK(texts.contains(QStringLiteral("0.6\u00a0cm")));      // 3 m/s for 1/500 s
    CHECK(texts.contains(QStringLiteral("4.2\u00a0ms")));      // 1/240 s
    // sqrt(2/3) / 240 s = 3.4 ms.
    CHECK(texts.contains(QStringLiteral("±\u00a03\u00a0ms")));
}

TEST_CASE("a shutter longer than a frame is refused where the numbers were", "[ui]")
{
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    setFourMetres(coach);
    setShutter(page, 100);
    CHECK(textsOf(page).contains(QStringLiteral("the shutter cannot stay open longer than 1/240")));
    CHECK_FALSE(page.setUp().card());
    CHECK_FALSE(buttonNamed(page, QStringLiteral("Print card…")).isEnabled());
    setShutter(page, 1000);
    CHECK(page.setUp().card());
    CHECK(buttonNamed(page, QStringLiteral("Print card…")).isEnabled());
}

TEST_CASE("a set-up is remembered", "[ui]")
{
    FilmingCoach coach;
    coach.openFirstDay();
    setFourMetres(coach);
    FilmingPage& again = coach.openNewDay("2026-09-01");
    CHECK(textsOf(again.setUp()).contains(QStringLiteral("0.31\u00a0cm")));
}

TEST_CASE("the set-up card is one page of text and lines, with the calculator's numbers",
          "[ui][outside]")
{
    // Read back with poppler (pdftotext, pdfinfo, pdffonts, pdfimages).
    FilmingCoach coach;
    FilmingPage& page = coach.openFirstDay();
    setFourMetres(coach);
    setShutter(page, 1000);
    const tests::ScratchFolder folder;
    const QString file = QString::fromStdString((folder / "card.pdf").string());
    REQUIRE(page.setUp().exportTo(file));
    const QString text = tests::pdfText(file.toStdString());
    CAPTURE(text.toStdString());
    for (const char* said :
         {"Set-up for filming", "4.00 m", "0.31 cm", "240 frames/s", "1/1000 s", "Plumb line",
          "Consent", "Tight clothing", "Square to the belt", "licensed clinician", "± 3 ms"}) {
        INFO(said);
        const QString plain = QString(text).replace(QChar(0x00a0), u' ');
        CHECK(plain.contains(QString::fromUtf8(said)));
    }
    CHECK(tests::told(QStringLiteral("pdfimages"), {QStringLiteral("-list"), file}).count(u'\n') <=
          2);
    const QString info = tests::told(QStringLiteral("pdfinfo"), {file});
    CHECK(info.contains(QStringLiteral("Pages:           1")));
    CHECK(info.contains(QStringLiteral("A5")));
    // Nothing of the athlete and no device travels with the card.
    CHECK_FALSE(text.contains(QStringLiteral("Varga")));
}

TEST_CASE("the set-up card fits its page for every kind of set-up", "[ui]")
{
    CameraSetUp setUp;
    setUp.onBelt = GENERATE(true, false);
    setUp.fieldBy = GENERATE(FieldBy::EquivalentFocal, FieldBy::WidthAtRunner);
    setUp.field = setUp.fieldBy == FieldBy::EquivalentFocal ? 26 : 400;
    const auto geometry = pictureGeometry(setUp);
    REQUIRE(geometry);
    QImage image(744, 1056, QImage::Format_RGB32);
    QPainter painter(&image);
    const double used =
        paintSetUpCard(painter, QRectF(image.rect()), setUpCard(setUp, *geometry, std::nullopt));
    CHECK(used <= 1.0);
    CHECK(used > 0.8);
}
