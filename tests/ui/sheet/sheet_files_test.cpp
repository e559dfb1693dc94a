// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_files.hpp"

#include "tests/catch.hpp"
#include "tests/hostile_names.hpp"
#include "tests/scratch_folder.hpp"
#include "tests/ui/sheet/poppler.hpp"
#include "tests/ui/sheet/sample_sheet.hpp"

#include <QImageReader>
#include <QRegularExpression>

#include <algorithm>

using namespace latemile;
using namespace latemile::ui;
using namespace latemile::tests;

namespace {

QString pathOf(const std::filesystem::path& file)
{
    return QString::fromStdString(file.string());
}

bool holds(const QString& text, const std::string& words)
{
    return text.contains(QString::fromStdString(words).simplified());
}

/// The sheet as PDF in a folder of its own.
struct Written {
    explicit Written(const SheetContent& content, const SheetStyle& style = {})
    {
        haveApplication();
        REQUIRE(writeSheetPdf(content, greyPictures(), file, style));
    }
    ScratchFolder folder;
    std::filesystem::path file{folder / "sheet.pdf"};
};

} // namespace

TEST_CASE("poppler reads back every word that a sheet promises", "[sheet][outside]")
{
    // pdftotext of poppler-utils, a general-purpose reader that shares no code with Qt's writer.
    SheetStyle style;
    style.paper = GENERATE(Paper::A4, Paper::Letter);
    style.blackAndWhite = GENERATE(false, true);
    const SheetContent content = sampleSheet();
    const Written written(content, style);
    const QString text = pdfText(written.file);
    CHECK(holds(text, content.athlete));
    CHECK(holds(text, "29 August 2026"));
    CHECK(holds(text, "2.70 m/s (6:10 min/km)"));
    CHECK(holds(text, "minute 6 and minute 58"));
    for (const SheetRow& row : content.rows) {
        CAPTURE(row.name);
        CHECK(holds(text, row.name));
        CHECK(holds(text, std::string(nameOf(row.verdict))));
        CHECK(holds(text, row.change));
        CHECK((row.verdict != Verdict::ClearChange || holds(text, row.sentence)));
        CHECK((row.verdict != Verdict::NotComparable || holds(text, row.reason)));
    }
    REQUIRE(content.cues.size() == 2);
    for (const CueText& cue : content.cues) {
        CHECK(holds(text, cue.think));
        CHECK(holds(text, cue.drill));
        CHECK(holds(text, cue.caution));
    }
    for (const std::string& caution : content.cautions) {
        CHECK(holds(text, caution));
    }
    CHECK(holds(text, content.confirmed)); // "confirmed": found only where "fi" is two letters
    CHECK(holds(text, content.errorWords));
}

TEST_CASE("the PDF is one sound page of the paper's size with embedded fonts", "[sheet][outside]")
{
    SheetStyle style;
    style.paper = GENERATE(Paper::A4, Paper::Letter);
    style.largePrint = GENERATE(false, true);
    const Written written(GENERATE(0, 1) == 0 ? sampleSheet() : crowdedSheet(), style);
    const QString info = told(QStringLiteral("pdfinfo"), {pathOf(written.file)});
    CHECK(info.contains(QRegularExpression(QStringLiteral("Pages:\\s+1\n"))));
    // ISO 216: 210 x 297 mm are 595.3 x 841.9 pt; Letter, 8.5 x 11 in, is 612 x 792 pt.
    const QString size = style.paper == Paper::A4 ? QStringLiteral("595[0-9.]* x 84[12][0-9.]* pts")
                                                  : QStringLiteral("612 x 792 pts");
    CHECK(info.contains(QRegularExpression(size)));
    CHECK_FALSE(
        told(QStringLiteral("qpdf"), {QStringLiteral("--check"), pathOf(written.file)}).isEmpty());

    const QStringList fonts = told(QStringLiteral("pdffonts"), {pathOf(written.file)})
                                  .split(QLatin1Char('\n'), Qt::SkipEmptyParts)
                                  .mid(2);
    CHECK_FALSE(fonts.isEmpty());
    for (const QString& font : fonts) {
        CAPTURE(font.toStdString());
        CHECK(font.contains(QRegularExpression(QStringLiteral("Identity-H\\s+yes"))));
        CHECK_FALSE(font.contains(QLatin1String("Type 3"))); // a font of pictures
    }
}

TEST_CASE("only the four stills are pictures; text and lines are drawn as such", "[sheet][outside]")
{
    const Written written(sampleSheet());
    const QString list =
        told(QStringLiteral("pdfimages"), {QStringLiteral("-list"), pathOf(written.file)});
    CHECK(list.split(QLatin1Char('\n'), Qt::SkipEmptyParts).size() == 2 + 4);
}

TEST_CASE("the file's data about itself name no person and no device", "[sheet]")
{
    const SheetContent content = sampleSheet();
    const Written written(content);
    const QString info = told(QStringLiteral("pdfinfo"), {pathOf(written.file)});
    CHECK(info.contains(QLatin1String("Latemile")));
    CHECK_FALSE(holds(info, content.athlete));
    CHECK_FALSE(holds(info, content.coach));

    StillPictures pictures = greyPictures();
    pictures.images[0].setText(QStringLiteral("Location"), QStringLiteral("59.9,10.7"));
    const auto png = written.folder / "sheet.png";
    REQUIRE(writeSheetPng(content, pictures, png));
    CHECK(QImageReader(pathOf(png)).textKeys().isEmpty());
}

TEST_CASE("the picture has exactly the paper's size at 200 dots per inch", "[sheet]")
{
    haveApplication();
    const ScratchFolder folder;
    const auto file = folder / "sheet.png";
    SheetStyle style;
    style.paper = GENERATE(Paper::A4, Paper::Letter);
    REQUIRE(writeSheetPng(sampleSheet(), greyPictures(), file, style));
    const QImage image(pathOf(file));
    // 210 x 297 mm and 8.5 x 11 in times 200, rounded.
    CHECK(image.size() == (style.paper == Paper::A4 ? QSize(1654, 2339) : QSize(1700, 2200)));
    CHECK(image.dotsPerMeterX() == 7874); // 200 / 0.0254
    CHECK(image.dotsPerMeterY() == 7874);
}

TEST_CASE("a black-and-white sheet holds no colour at all", "[sheet]")
{
    haveApplication();
    SheetStyle style;
    style.blackAndWhite = true;
    StillPictures pictures = greyPictures();
    for (QImage& image : pictures.images) {
        image.fill(QColor(200, 40, 90));
    }
    const QImage image = sheetImage(sampleSheet(), pictures, style, 72.0);
    bool coloured = false;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            const QRgb pixel = image.pixel(x, y);
            coloured = coloured || qRed(pixel) != qGreen(pixel) || qGreen(pixel) != qBlue(pixel);
        }
    }
    CHECK_FALSE(coloured);
}

TEST_CASE("with pain noted a sheet shows the way to a clinician and no cue", "[sheet]")
{
    SheetContent content = sampleSheet();
    const std::string think = content.cues.front().think;
    content.cues.clear();
    content.seeClinician = "Pain was noted at this session. Please see a licensed clinician.";
    const Written written(content);
    const QString text = pdfText(written.file);
    CHECK(holds(text, content.seeClinician));
    CHECK_FALSE(holds(text, think));
    CHECK_FALSE(holds(text, "Drill"));
}

TEST_CASE("a sheet in inches tells no centimetres", "[sheet]")
{
    SheetStyle style;
    style.inches = true;
    const Written written(sampleSheet(), style);
    const QString text = pdfText(written.file);
    // 17.47 cm / 2.54 = 6.88 in; 4.46 cm / 2.54 = 1.76 in; 2.7 m/s = 6.04 mph, 9:56 a mile.
    CHECK(holds(text, "6.9 in"));
    CHECK(holds(text, "The foot lands 1.8 in further ahead of the hip."));
    CHECK(holds(text, "6.0 mph (9:56 min/mile)"));
    CHECK_FALSE(holds(text, " cm"));
}

TEST_CASE("a person's angle brackets stand on the sheet as typed", "[sheet]")
{
    SheetContent content = sampleSheet();
    content.athlete = "Ada <b>Quick</b>";
    content.note = "Look: <img src=\"/etc/hostname\"> & more";
    const Written written(content);
    const QString text = pdfText(written.file);
    CHECK(holds(text, content.athlete));
    CHECK(holds(text, content.note));
}

TEST_CASE("a sheet bears any name and note, and shows as typed what a page can show", "[sheet]")
{
    SheetContent content = sampleSheet();
    for (const std::string& name : hostileNames()) {
        CAPTURE(name);
        content.athlete = name;
        content.note = name;
        const Written written(content);
        const QString text = pdfText(written.file);
        CHECK(holds(text, "29 August 2026"));
        const bool printable = std::ranges::all_of(name, [](char c) { return c >= 32 && c < 127; });
        if (printable && name.size() < 40) {
            CHECK(holds(text, name));
        }
    }
}

TEST_CASE("a place that cannot be written gives one sentence and leaves no stump", "[sheet]")
{
    haveApplication();
    const ScratchFolder folder;
    const auto taken = folder / "taken.pdf";
    std::filesystem::create_directory(taken);
    std::ofstream(taken / "inside") << "stays";
    for (const auto& file : {taken, folder / "absent" / "sheet.pdf"}) {
        for (const auto& outcome : {writeSheetPdf(sampleSheet(), greyPictures(), file),
                                    writeSheetPng(sampleSheet(), greyPictures(), file)}) {
            REQUIRE_FALSE(outcome);
            CHECK(outcome.error().sentence.find(file.filename().string()) != std::string::npos);
            CHECK(outcome.error().sentence.find('\n') == std::string::npos);
        }
    }
    CHECK(folder.entries() == 1);
    CHECK(bytesOf(taken / "inside") == "stays");
}

TEST_CASE("a sheet written over an older one replaces it whole", "[sheet]")
{
    haveApplication();
    const ScratchFolder folder;
    const auto file = folder.file("sheet.pdf", std::string(3000000, 'x'));
    REQUIRE(writeSheetPdf(sampleSheet(), greyPictures(), file));
    const std::string bytes = bytesOf(file);
    CHECK(bytes.starts_with("%PDF"));
    CHECK(bytes.find("xxxxxxxxxx") == std::string::npos);
    CHECK(folder.entries() == 1);
}
