// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_files.hpp"
#include "ui/sheet/sheet_html.hpp"

#include "tests/catch.hpp"
#include "tests/hostile_names.hpp"
#include "tests/scratch_folder.hpp"
#include "tests/ui/sheet/poppler.hpp"
#include "tests/ui/sheet/sample_sheet.hpp"

#include <QProcess>
#include <QXmlStreamReader>

#include <algorithm>

using namespace latemile;
using namespace latemile::ui;
using namespace latemile::tests;

namespace {

/// The page as HTML Tidy reads it.
struct Tidied {
    QString complaints;
    QString xml;
};

Tidied tidied(const SheetContent& content, const SheetStyle& style = {})
{
    haveApplication();
    const ScratchFolder folder;
    REQUIRE(writeSheetHtml(content, greyPictures(), folder / "sheet.html", style));
    QProcess tidy;
    tidy.start(QStringLiteral("tidy"),
               {QStringLiteral("-q"), QStringLiteral("-asxml"), QStringLiteral("-utf8"),
                QStringLiteral("--wrap"), QStringLiteral("0"), QStringLiteral("--numeric-entities"),
                QStringLiteral("yes"), QString::fromStdString((folder / "sheet.html").string())});
    REQUIRE(tidy.waitForFinished());
    return {QString::fromUtf8(tidy.readAllStandardError()),
            QString::fromUtf8(tidy.readAllStandardOutput())};
}

/// What stands in each element of a kind, with what is in the elements within it.
QStringList textsOf(const QString& xml, const QString& kind)
{
    QStringList texts;
    QXmlStreamReader reader(xml);
    while (!reader.atEnd()) {
        if (reader.readNext() == QXmlStreamReader::StartElement && reader.name() == kind) {
            texts << reader.readElementText(QXmlStreamReader::IncludeChildElements).simplified();
        }
    }
    CHECK_FALSE(reader.hasError());
    return texts;
}

QStringList attributesOf(const QString& xml, const QString& kind, const QString& attribute)
{
    QStringList values;
    QXmlStreamReader reader(xml);
    while (!reader.atEnd()) {
        if (reader.readNext() == QXmlStreamReader::StartElement && reader.name() == kind) {
            values << reader.attributes().value(attribute).toString();
        }
    }
    return values;
}

} // namespace

TEST_CASE("HTML Tidy has nothing to mend in a sheet for the screen", "[sheet][html][outside]")
{
    const Tidied page = tidied(sampleSheet());
    CHECK(page.complaints.toStdString() == "");
}

TEST_CASE("a sheet for the screen tells what the printed one tells", "[sheet][html]")
{
    const SheetContent content = sampleSheet();
    const Tidied page = tidied(content);
    const auto holds = [&page](const std::string& words) {
        return page.xml.simplified().contains(
            QString::fromStdString(words).toHtmlEscaped().simplified());
    };
    CHECK(textsOf(page.xml, QStringLiteral("h1")) ==
          QStringList{QString::fromStdString(content.athlete)});
    for (const SheetRow& row : content.rows) {
        CAPTURE(row.name);
        CHECK(holds(row.name));
        CHECK(holds(row.fresh));
        CHECK(holds(row.change));
        CHECK(holds(row.verdict == Verdict::ClearChange ? row.sentence : row.reason));
    }
    for (const CueText& cue : content.cues) {
        CHECK(holds(cue.think));
        CHECK(holds(cue.drill));
        CHECK(holds(cue.caution));
    }
    for (const std::string& caution : content.cautions) {
        CHECK(holds(caution));
    }
    CHECK(holds(content.confirmed));
}

TEST_CASE("a screen reader finds language, headings, table headers and picture texts",
          "[sheet][html][outside]")
{
    // Outside: WCAG 2.1, 3.1.1 (language), 1.3.1 (headings, table headers), 1.1.1 (text in place of
    // pictures).
    const SheetContent content = sampleSheet();
    const QString xml = tidied(content).xml;
    CHECK(attributesOf(xml, QStringLiteral("html"), QStringLiteral("lang")) ==
          QStringList{QStringLiteral("en")});
    CHECK(textsOf(xml, QStringLiteral("h2")).size() >= 5);
    CHECK(textsOf(xml, QStringLiteral("caption")).size() == 1);
    const QStringList scopes = attributesOf(xml, QStringLiteral("th"), QStringLiteral("scope"));
    CHECK(scopes.count(QStringLiteral("col")) == 6);
    CHECK(scopes.count(QStringLiteral("row")) == static_cast<qsizetype>(content.rows.size()));
    const QStringList alts = attributesOf(xml, QStringLiteral("img"), QStringLiteral("alt"));
    REQUIRE(alts.size() == 4);
    CHECK(alts.front().startsWith(QStringLiteral("Fresh, contact: ")));
    CHECK(alts.front().contains(QStringLiteral("Foot ahead of hip")));
    CHECK(alts.front().contains(QStringLiteral(" cm")));
}

TEST_CASE("a sheet for the screen loads nothing from anywhere", "[sheet][html][privacy]")
{
    haveApplication();
    const QString html = sheetHtml(sampleSheet(), greyPictures(), {});
    CHECK_FALSE(html.contains(QStringLiteral("http:")));
    CHECK_FALSE(html.contains(QStringLiteral("https:")));
    CHECK_FALSE(html.contains(QStringLiteral("<script")));
    CHECK_FALSE(html.contains(QStringLiteral("<link")));
    for (const QString& source :
         attributesOf(tidied(sampleSheet()).xml, QStringLiteral("img"), QStringLiteral("src"))) {
        CHECK(source.startsWith(QStringLiteral("data:image/png;base64,")));
    }
}

TEST_CASE("a person's text is inert on a sheet for the screen", "[sheet][html][refusals]")
{
    haveApplication();
    const auto elementsWith = [](const std::string& name) {
        SheetContent content = sampleSheet();
        content.athlete = content.coach = content.note = name;
        content.cues.front().think = content.cues.front().drill = name;
        return sheetHtml(content, StillPictures(), {}).count(u'<');
    };
    const qsizetype harmless = elementsWith("Ilse Varga");
    for (const std::string& name : hostileNames()) {
        CAPTURE(name);
        CHECK(elementsWith(name) == harmless);
    }
}

TEST_CASE("the ending of its name says what kind of sheet is written", "[sheet][html]")
{
    haveApplication();
    const ScratchFolder folder;
    for (const auto& [name, begin] : {std::pair{"a.HTML", "<!DOCTYPE html>"},
                                      std::pair{"a.PNG", "\x89PNG"}, std::pair{"a.pdf", "%PDF"}}) {
        REQUIRE(writeSheet(sampleSheet(), greyPictures(), folder / name));
        CHECK(bytesOf(folder / name).substr(0, std::string(begin).size()) == begin);
    }
}
