// SPDX-License-Identifier: GPL-3.0-or-later
// A coach's own measures. Expected numbers are those of the worked example in DEVELOPERS.md, worked
// out by hand and again by NumPy, or of the built-in formula of the same words.
#include "core/measures/formula_forms.hpp"
#include "core/measures/own_formula.hpp"
#include "core/measures/own_measures.hpp"
#include "core/measures/prepared_clip.hpp"
#include "core/measures/readings_file.hpp"
#include "core/measures/step_readings.hpp"
#include "tests/catch.hpp"
#include "tests/core/measures/worked_example.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

using namespace latemile;
using namespace latemile::testing;

namespace {

OwnMeasure ownOf(std::string formula, Unit unit)
{
    return {.id = "mine",
            .name = "Mine",
            .formula = std::move(formula),
            .unit = unit,
            .positive = "more",
            .floor = 1.0};
}

Readings readWith(const OwnMeasure& own, const MarkedClip& clip)
{
    return readingsOf(clip, false, OwnMeasures::from({own}).value()).value();
}

std::string faultOf(const std::string& formula)
{
    const auto parsed = parseFormula(formula);
    return parsed ? "" : parsed.error().sentence;
}

} // namespace

TEST_CASE("own formulas in the words of built-in ones give the worked example's numbers",
          "[measures][outside]")
{
    const auto [formula, unit, expected] = GENERATE(table<const char*, Unit, double>({
        {"ankle ahead of hip at contact", Unit::Centimetre, 26.000},
        {"hang knee to ankle at contact", Unit::Degree, 9.648},
        {"(hang hip to knee - hang knee to ankle) at contact", Unit::Degree, 17.158},
        {"180 - angle hip knee ankle at contact", Unit::Degree, 17.158},
        {"slope heel to toe at contact - flat foot", Unit::Degree, 14.036},
        {"slope heel to toe at contact - flat foot - hang knee to ankle at contact", Unit::Degree,
         4.388},
        {"lean hip to shoulder at contact", Unit::Degree, 6.843},
        {"angle shoulder elbow wrist at contact", Unit::Degree, 81.674},
        {"ear ahead of shoulder at mid-stance", Unit::Centimetre, 6.400},
        {"ear above shoulder at mid-stance", Unit::Centimetre, 17.600},
        {"ankle ahead of hip at mid-stance", Unit::Centimetre, -11.200},
        {"100 * (hip above ground at mid-stance) / leg", Unit::Percent, 96.364},
        {"hip above ground at contact - hip above ground at mid-stance", Unit::Centimetre, 3.200},
        {"lean toe to hip at toe-off", Unit::Degree, 23.070},
        {"-(hang hip to knee + lean hip to shoulder) at toe-off", Unit::Degree, 13.991},
    }));
    INFO(formula);
    const auto readings = readWith(ownOf(formula, unit), exampleClip());
    const auto* reading = findReading(readings, "mine");
    REQUIRE(reading);
    INFO(reading->reason);
    REQUIRE(reading->value);
    CHECK(*reading->value == Approx(expected).margin(0.0006));
    CHECK(*reading->se > 0.0);
}

TEST_CASE("an own formula has the error of the built-in one it spells", "[measures]")
{
    const auto clip = exampleClip();
    for (const auto& [id, formula, unit] :
         {std::tuple{"foot_ahead", "ankle ahead of hip at contact", Unit::Centimetre},
          std::tuple{"head_forward", "ear ahead of shoulder at mid-stance", Unit::Centimetre},
          std::tuple{"knee_flex_contact", "(hang hip to knee - hang knee to ankle) at contact",
                     Unit::Degree}}) {
        INFO(id);
        const auto readings = readWith(ownOf(formula, unit), clip);
        const auto* own = findReading(readings, "mine");
        const auto* builtIn = findReading(readings, id);
        CHECK(own->shares.marks == Approx(builtIn->shares.marks));
        CHECK(own->shares.scale == Approx(builtIn->shares.scale));
        CHECK(own->shares.plumb == Approx(builtIn->shares.plumb));
    }
}

TEST_CASE("an own angle is taken to run on as fast as any of the table's", "[measures]")
{
    const auto own =
        OwnMeasures::from({ownOf("lean hip to shoulder at contact", Unit::Degree)}).value();
    const auto& mine = own.table().front();
    for (const auto& measure : measureTable()) {
        INFO(measure.id);
        if (measure.unit == Unit::Degree) {
            CHECK(measure.rateAtContact.perSecond <= mine.rateAtContact.perSecond);
            CHECK(measure.rateAtContact.onForefoot.value_or(0.0) <= mine.rateAtContact.perSecond);
            CHECK(measure.rateAtMidStance.perSecond <= mine.rateAtMidStance.perSecond);
        }
    }
}

TEST_CASE("an extreme is looked for as the built-in formulas look for it", "[measures]")
{
    auto clip = exampleClip();
    for (std::int64_t i = 0; i < clip.index.size(); ++i) {
        const double t = clip.index.time({i}).count();
        const auto put = [&](Landmark landmark, double u, double v) {
            clip.marking.marks[{{i}, BodySide::Near, landmark}] = {{u, v}, Origin::Placed, 1.0};
        };
        put(Landmark::Hip, 960, 780 + 10.0 * std::cos(16.0 * t));
        put(Landmark::Shoulder, 975, 655);
        put(Landmark::Elbow, 960 - 60.0 * std::sin(9.0 * t), 700);
        put(Landmark::Wrist, 1000 + 50.0 * std::sin(9.0 * t), 720 - 30.0 * std::cos(9.0 * t));
    }
    for (const auto& [id, formula, unit] :
         {std::tuple{"arm_back", "highest (shoulder ahead of elbow) in stride", Unit::Centimetre},
          std::tuple{"hand_height_lowest", "100 * lowest (wrist above hip) in stride / trunk",
                     Unit::Percent}}) {
        INFO(id);
        const auto readings = readWith(ownOf(formula, unit), clip);
        const auto* own = findReading(readings, "mine");
        const auto* builtIn = findReading(readings, id);
        REQUIRE(own->value);
        CHECK(*own->value == Approx(*builtIn->value));
        CHECK(own->shares.marks == Approx(builtIn->shares.marks));
    }
}

TEST_CASE("a formula that cannot be read is told by its column", "[measures]")
{
    const auto [formula, column, words] = GENERATE(table<const char*, const char*, const char*>({
        {"", "column 1:", "empty"},
        {"anke ahead of hip at contact", "column 1:", "'anke' is no landmark"},
        {"ankle ahead of hip", "column 1:", "needs an instant"},
        {"ankle ahead hip at contact", "column 13:", "expected 'of'"},
        {"ankle beside hip at contact", "column 7:", "'ahead of' or 'above'"},
        {"ankle ahead of hip at landing", "column 23:", "no instant"},
        {"(ankle ahead of hip at contact", "column 31:", "expected ')'"},
        {"ankle ahead of hip at contact )", "column 31:", "one too many"},
        {"ankle ahead of hip at contact + lean hip to shoulder at contact",
         "column 31:", "cannot be added"},
        {"ankle ahead of hip at contact * leg", "column 31:", "cannot be multiplied"},
        {"(ankle ahead of hip at contact) at toe-off", "column 33:", "already"},
        {"highest (wrist above hip at contact) in stride", "column 10:", "without an 'at'"},
        {"highest (wrist above hip) in flight", "column 30:", "no phase"},
        {"highest (3) in stride", "column 1:", "no point"},
        {"3 + 4", "column 1:", "names no landmark"},
        {"1.2.3 * leg", "column 1:", "no number"},
        {"ankle ahead of hip at contact ^ 2", "column 31:", "no meaning"},
        {"left ankle ahead of hip at contact", "column 1:", "with every point, or with none"},
        {"lean hip-shoulder at contact", "column 6:", "'hip-shoulder' is no landmark"},
    }));
    INFO(formula);
    CHECK_THAT(faultOf(formula), containing(column));
    CHECK_THAT(faultOf(formula), containing(words));
}

TEST_CASE("a formula nested without end is refused and not followed down", "[measures]")
{
    CHECK_THAT(faultOf(std::string(100, '(')), containing("too many brackets"));
    CHECK_THAT(faultOf(std::string(100, '-')), containing("too many signs"));
    CHECK_THAT(faultOf(std::string(501, ' ')), containing("longer than 500"));
}

TEST_CASE("an own measure's texts and unit are checked", "[measures]")
{
    const auto faultWith = [](auto change) {
        auto own = ownOf("ankle ahead of hip at contact", Unit::Centimetre);
        change(own);
        const auto made = OwnMeasures::from({own});
        return made ? std::string() : made.error().sentence;
    };
    CHECK(faultWith([](OwnMeasure&) {}).empty());
    CHECK_THAT(faultWith([](OwnMeasure& own) { own.unit = Unit::Degree; }),
               containing("a length, so its unit is cm"));
    CHECK_THAT(faultWith([](OwnMeasure& own) { own.id = "foot_ahead"; }),
               containing("has a measure of this id"));
    CHECK_THAT(faultWith([](OwnMeasure& own) { own.id = "Foot"; }), containing("small letters"));
    CHECK_THAT(faultWith([](OwnMeasure& own) { own.name.clear(); }), containing("needs a name"));
    const auto own = ownOf("ankle ahead of hip at contact", Unit::Centimetre);
    const auto twice = OwnMeasures::from({own, own});
    REQUIRE_FALSE(twice);
    CHECK_THAT(twice.error().sentence, containing("given twice"));
}

TEST_CASE("a missing mark and a division by nothing are reasons, never a number", "[measures]")
{
    auto clip = exampleClip();
    SECTION("the landmark, the instant and the step are named")
    {
        clip.marking.marks.erase({{50}, BodySide::Near, Landmark::Ankle});
        const auto readings =
            readWith(ownOf("ankle ahead of hip at contact", Unit::Centimetre), clip);
        CHECK_FALSE(findReading(readings, "mine")->value);
        CHECK(findReading(readings, "mine")->reason == "ankle not marked at contact, step 1");
    }
    SECTION("nothing is divided by")
    {
        const auto readings =
            readWith(ownOf("100 * (ankle ahead of hip at contact) / (hip ahead of hip at contact)",
                           Unit::Percent),
                     clip);
        CHECK_FALSE(findReading(readings, "mine")->value);
        CHECK_THAT(findReading(readings, "mine")->reason, containing("divides by nothing"));
        CHECK(toJson(readings).dump().find("nan") == std::string::npos);
        CHECK(readingsCsv(readings).find("nan") == std::string::npos);
    }
}

TEST_CASE("copies of own measures stay whole when the first is gone", "[measures]")
{
    OwnMeasures copy;
    {
        const auto own = OwnMeasures::from({ownOf("ear above hip at contact", Unit::Centimetre)});
        copy = *own;
    }
    REQUIRE(copy.table().size() == 1);
    CHECK(copy.table().front().name == "Mine");
    CHECK(copy.find("mine") == &copy.table().front());
    CHECK(copy.find("foot_ahead") == findMeasure("foot_ahead"));
    CHECK(copy.find("nothing") == nullptr);
    CHECK(OwnMeasures().all().size() == measureTable().size());
}

TEST_CASE("every form that is told is read as told", "[measures]")
{
    const auto withReal = [](std::string text, const std::string& standIn, const char* real) {
        for (auto at = text.find(standIn); at != std::string::npos; at = text.find(standIn)) {
            text.replace(at, standIn.size(), real);
        }
        return text;
    };
    for (const auto& form : formulaForms()) {
        using Is = OwnFormula::Node::Is;
        INFO(form.pattern);
        auto text = withReal(std::string(form.pattern), "POINT", "hip");
        text = withReal(withReal(text, "FORMULA", "wrist above hip"), "PHASE", "stance");
        const bool ofPhase = form.is == Is::Highest || form.is == Is::Lowest;
        const bool ofAthlete =
            form.is == Is::Leg || form.is == Is::Trunk || form.is == Is::FlatFoot;
        // What belongs to the athlete alone names no landmark, and angles are not added to lengths.
        if (ofAthlete) {
            text += form.kind == OwnFormula::Kind::Angle ? " + slope heel to toe at contact"
                                                         : " + hip above ankle at contact";
        } else if (!ofPhase) {
            text += " at contact";
        }
        const auto parsed = parseFormula(text);
        INFO((parsed ? "" : parsed.error().sentence));
        REQUIRE(parsed);
        const auto& node = ofAthlete ? parsed->root.parts.front() : parsed->root;
        CHECK(node.is == form.is);
        CHECK((ofPhase || node.kind == form.kind));
    }
    CHECK(landmarksInWords() == "ear, shoulder, elbow, wrist, hip, knee, ankle, heel, toe, asis, "
                                "psis and heel-top");
}

TEST_CASE("the examples are sound and read on a marked clip", "[measures][outside]")
{
    // Worked example, by hand, 0.4 cm a pixel: knee at u = 1008 and hip at u = 960 at contact,
    // 19.2 cm; toe at u = 868 and hip at u = 960 at toe-off, 36.8 cm of a leg of 88 cm.
    const auto clip = exampleClip();
    const auto own = OwnMeasures::from(exampleOwnMeasures()).value();
    const auto readings = readingsOf(clip, false, own).value();
    CHECK(*findReading(readings, "knee_ahead_of_hip")->value == Approx(19.2));
    CHECK(*findReading(readings, "push_off_reach")->value == Approx(100.0 * 36.8 / 88.0));
}

TEST_CASE("a fault names the field to mend, and the formula's its column", "[measures]")
{
    using Field = OwnFault::Field;
    const auto good = ownOf("ankle ahead of hip at contact", Unit::Centimetre);
    CHECK_FALSE(latemile::faultOf({good}, 0));
    const auto fieldOf = [&](auto change) {
        auto own = good;
        change(own);
        const auto fault = latemile::faultOf({own}, 0);
        REQUIRE(fault);
        return fault->field;
    };
    CHECK(fieldOf([](OwnMeasure& own) { own.id = "9"; }) == Field::Id);
    CHECK(fieldOf([](OwnMeasure& own) { own.name.clear(); }) == Field::Name);
    CHECK(fieldOf([](OwnMeasure& own) { own.positive.clear(); }) == Field::Positive);
    CHECK(fieldOf([](OwnMeasure& own) { own.unit = Unit::Percent; }) == Field::Unit);
    CHECK(fieldOf([](OwnMeasure& own) { own.floor = 0.0; }) == Field::Floor);
    CHECK(fieldOf([](OwnMeasure& own) { own.formula = "ankle ahead"; }) == Field::FormulaText);
    auto own = good;
    own.formula = "ankle beside hip at contact";
    CHECK(latemile::faultOf({own}, 0)->column == 7U);
    CHECK(latemile::faultOf({good, good}, 1)->field == Field::Id);
}

TEST_CASE("an own measure of one value is drawn as the built-in one it spells", "[measures]")
{
    const auto drawingOf = [](const char* formula, Unit unit) {
        return OwnMeasures::from({ownOf(formula, unit)})->table().front().drawing;
    };
    const auto gap =
        std::get<HorizontalGap>(drawingOf("ankle ahead of hip at contact", Unit::Centimetre));
    const auto& builtIn = std::get<HorizontalGap>(findMeasure("foot_ahead")->drawing);
    CHECK(gap.from == builtIn.from);
    CHECK(gap.to == builtIn.to);
    CHECK(std::get<AngleToPlumb>(drawingOf("lean hip to shoulder at mid-stance", Unit::Degree))
              .towards == Landmark::Shoulder);
    CHECK(drawingOf("ear ahead of hip at contact - ear ahead of hip at toe-off", Unit::Centimetre)
              .index() == 0);
}

TEST_CASE("the first readable step is told, or why there is none", "[measures]")
{
    auto clip = exampleClip();
    const auto own =
        OwnMeasures::from({ownOf("ankle ahead of hip at contact", Unit::Centimetre)}).value();
    const auto& measure = own.table().front();
    CHECK(*firstReading(prepare(clip).value(), measure)->value == Approx(26.0));
    clip.marking.marks.clear();
    const auto unread = firstReading(prepare(clip).value(), measure);
    REQUIRE(unread);
    CHECK_FALSE(unread->value);
    CHECK_THAT(unread->reason, containing("not marked"));
    clip.marking.stances.clear();
    CHECK_FALSE(firstReading(prepare(clip).value(), measure));
}
