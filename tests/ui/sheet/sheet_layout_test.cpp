// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_layout.hpp"

#include "tests/catch.hpp"
#include "tests/ui/sheet/poppler.hpp"
#include "tests/ui/sheet/sample_sheet.hpp"
#include "ui/sheet/still_labels.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::ui;
using namespace latemile::tests;

namespace {

SheetContent contentNumber(int number)
{
    SheetContent content = number == 0 ? sampleSheet() : crowdedSheet();
    if (number == 2) { // as bare as a sheet can be
        content.rows.clear();
        content.cues.clear();
        content.note.clear();
        content.coach.clear();
        content.freshMinute.clear();
        content.fatiguedMinute.clear();
    }
    if (number == 3) { // every measure of the table at once
        const auto rows = content.rows;
        for (int i = 0; i < 2; ++i) {
            content.rows.insert(content.rows.end(), rows.begin(), rows.end());
        }
    }
    return content;
}

/// Every combination of content and style.
struct Case {
    SheetContent content;
    SheetStyle style;
};

Case anyCase()
{
    haveApplication();
    Case made{contentNumber(GENERATE(0, 1, 2, 3)), {}};
    made.style.paper = GENERATE(Paper::A4, Paper::Letter);
    made.style.largePrint = GENERATE(false, true);
    return made;
}

bool overlap(const QRectF& a, const QRectF& b)
{
    const QRectF common = a & b;
    return common.width() > 1.0 && common.height() > 1.0; // a twip is no overlap
}

/// Relative luminance of WCAG 2.1 (definition from memory).
double luminance(const QColor& colour)
{
    const auto linear = [](double channel) {
        return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b)
{
    const double high = std::max(luminance(a), luminance(b));
    const double low = std::min(luminance(a), luminance(b));
    return (high + 0.05) / (low + 0.05);
}

} // namespace

TEST_CASE("nothing leaves the page, whatever is written on it", "[sheet]")
{
    const Case made = anyCase();
    const SheetLayout layout = layOutSheet(made.content, made.style);
    const QRectF area = layout.printable.adjusted(-1.0, -1.0, 1.0, 1.0);
    REQUIRE_FALSE(layout.texts.empty());
    for (const TextItem& text : layout.texts) {
        CAPTURE(text.text.toStdString());
        CHECK(area.contains(text.rect));
    }
    for (const StillItem& still : layout.stills) {
        CHECK(area.contains(still.rect));
    }
    for (const SignItem& sign : layout.signs) {
        CHECK(area.contains(sign.rect));
    }
}

TEST_CASE("no text runs into another, a sign or a still", "[sheet]")
{
    const Case made = anyCase();
    const SheetLayout layout = layOutSheet(made.content, made.style);
    std::vector<QRectF> taken;
    for (const SignItem& sign : layout.signs) {
        taken.push_back(sign.rect);
    }
    for (const StillItem& still : layout.stills) {
        taken.push_back(still.rect);
    }
    std::string collisions;
    for (const TextItem& text : layout.texts) {
        for (const QRectF& other : taken) {
            collisions += overlap(text.rect, other) ? text.text.toStdString() + '\n' : "";
        }
        taken.push_back(text.rect);
    }
    CHECK(collisions == "");
}

TEST_CASE("no text is wider than its place", "[sheet]")
{
    const Case made = anyCase();
    const SheetLayout layout = layOutSheet(made.content, made.style);
    const SheetType type(made.style, layout.scale);
    for (const TextItem& text : layout.texts) {
        CAPTURE(text.text.toStdString());
        const double lines = lineCount(text.text, type.font(text.role), text.rect.width());
        CHECK(lines * type.lineHeight(text.role) <= text.rect.height() + 1.0);
    }
}

TEST_CASE("what keeps an athlete safe is never cut, however full the page", "[sheet]")
{
    const Case made = anyCase();
    const SheetLayout layout = layOutSheet(made.content, made.style);
    QString all;
    for (const TextItem& text : layout.texts) {
        all += text.text + QLatin1Char('\n');
    }
    all.replace(QChar(QChar::Nbsp), QLatin1Char(' '));
    for (const std::string& caution : made.content.cautions) {
        CHECK(all.contains(QString::fromStdString(caution)));
    }
    CHECK(all.contains(QString::fromStdString(made.content.errorWords)));
    CHECK(all.contains(QString::fromStdString(made.content.confirmed)));
    for (const SheetRow& row : made.content.rows) {
        CHECK(all.contains(QString::fromStdString(row.name)));
        CHECK(all.contains(QString::fromStdString(row.change)));
    }
}

TEST_CASE("an ordinary sheet keeps its full size of type and all four stills", "[sheet]")
{
    haveApplication();
    const SheetLayout layout = layOutSheet(sampleSheet(), {});
    CHECK(layout.scale == 1.0);
    CHECK(layout.stills.size() == 4);
    for (const TextItem& text : layout.texts) {
        CHECK_FALSE(text.text.contains(QChar(0x2026)));
    }
}

TEST_CASE("large print stays at least a quarter larger than the ordinary page", "[sheet]")
{
    haveApplication();
    SheetStyle large;
    large.largePrint = true;
    const SheetContent content = sampleSheet();
    const SheetLayout layout = layOutSheet(content, large);
    const double ordinary = SheetType({}, layOutSheet(content, {}).scale).size(Role::Body);
    CHECK(SheetType(large, layout.scale).size(Role::Body) >= 1.25 * ordinary);
}

TEST_CASE("every measure's label stands inside its still, on no other label", "[sheet]")
{
    haveApplication();
    const SheetContent content = sampleSheet();
    SheetStyle style;
    style.largePrint = GENERATE(false, true);
    const SheetLayout layout = layOutSheet(content, style);
    const SheetType type(style, layout.scale);
    for (const StillItem& item : layout.stills) {
        const Still& still = content.stills[item.still];
        const auto labels = placeLabels(still, item.rect, type);
        CHECK(labels.size() == still.measured.size());
        const StillMap map(still, item.rect);
        for (std::size_t i = 0; i < labels.size(); ++i) {
            CAPTURE(labels[i].letter.toStdString());
            CHECK(item.rect.contains(labels[i].plate));
            for (std::size_t j = i + 1; j < labels.size(); ++j) {
                CHECK_FALSE(labels[i].plate.intersects(labels[j].plate));
            }
            for (const StillMark& mark : still.landmarks) {
                CHECK_FALSE(labels[i].plate.contains(map(mark.at)));
            }
        }
    }
}

TEST_CASE("labels that start at one point still find places of their own", "[sheet]")
{
    haveApplication();
    Still still;
    still.cropTo = {300.0, 400.0};
    for (const char* letter : {"A", "B", "C", "D", "E", "F"}) {
        StillMeasured measured;
        measured.letter = letter;
        measured.label = "123.4 steps/min";
        measured.labelAt = {299.0, 1.0};
        still.measured.push_back(measured);
    }
    const QRectF rect(0.0, 0.0, 3000.0, 4000.0);
    const auto labels = placeLabels(still, rect, SheetType({}, 1.0));
    for (std::size_t i = 0; i < labels.size(); ++i) {
        CHECK(rect.contains(labels[i].plate));
        for (std::size_t j = i + 1; j < labels.size(); ++j) {
            CHECK_FALSE(labels[i].plate.intersects(labels[j].plate));
        }
    }
}

TEST_CASE("all text has a contrast of at least 4.5 to 1", "[sheet][outside]")
{
    // WCAG 2.1, success criterion 1.4.3.
    SheetStyle style;
    style.blackAndWhite = GENERATE(false, true);
    const SheetInks inks = sheetInks(style);
    for (const QColor& ground : {QColor(Qt::white), inks.tint}) {
        CHECK(contrast(inks.text, ground) >= 4.5);
        CHECK(contrast(inks.quiet, ground) >= 4.5);
    }
    CHECK(contrast(Qt::black, Qt::white) == Approx(21.0)); // the formula's own end points
}
