// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/own_measures.hpp"

#include "core/measures/own_formula.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>

namespace latemile {

/// What the entries look at. Both vectors are full before the first view is taken.
struct OwnMeasures::Held {
    struct Texts {
        std::string instant;
        std::string meaning;
        std::string source;
        std::string more;
        std::string less;
        std::string same;
    };
    std::vector<OwnMeasure> definitions;
    std::vector<Texts> texts;
    std::vector<Measure> table;
};

namespace {

/// How fast a value runs on where the frames around its instant are not marked: the belt's speed
/// for lengths and plain numbers, 660 degrees a second for angles: about the greatest of the
/// table's own (a choice of this project), since nothing is known of a formula just made up.
ValueRate cautiousRate(OwnFormula::Kind kind)
{
    return kind == OwnFormula::Kind::Angle ? ValueRate{ValueRate::Of::Fixed, 660.0}
                                           : ValueRate{ValueRate::Of::Belt, 1.0};
}

bool unitFits(Unit unit, OwnFormula::Kind kind)
{
    switch (kind) {
    case OwnFormula::Kind::Length:
        return unit == Unit::Centimetre;
    case OwnFormula::Kind::Angle:
        return unit == Unit::Degree;
    case OwnFormula::Kind::Number:
        break;
    }
    return unit == Unit::Percent || unit == Unit::None;
}

std::string_view unitsOf(OwnFormula::Kind kind)
{
    return kind == OwnFormula::Kind::Length  ? "a length, so its unit is cm"
           : kind == OwnFormula::Kind::Angle ? "an angle, so its unit is deg"
                                             : "a plain number, so its unit is % or -";
}

bool isId(std::string_view id)
{
    const auto isAllowed = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    };
    return !id.empty() && id.size() <= 40 && id.front() >= 'a' && id.front() <= 'z' &&
           std::ranges::all_of(id, isAllowed);
}

using Field = OwnFault::Field;

std::optional<OwnFault> faultOfTexts(const OwnMeasure& own, const std::vector<OwnMeasure>& all)
{
    const auto fault = [](Field field, const char* sentence) {
        return std::optional(OwnFault{.field = field, .sentence = sentence});
    };
    if (!isId(own.id)) {
        return fault(Field::Id, "an id is small letters, digits and '_', and begins with a letter");
    }
    if (findMeasure(own.id) != nullptr) {
        return fault(Field::Id, "Latemile has a measure of this id; choose another");
    }
    if (std::ranges::count(all, own.id, &OwnMeasure::id) > 1) {
        return fault(Field::Id, "the id is given twice");
    }
    if (own.name.empty()) {
        return fault(Field::Name, "it needs a name");
    }
    if (own.name.find("{}") != std::string::npos) {
        return fault(Field::Name, "the name must not hold {}");
    }
    if (own.positive.empty()) {
        return fault(Field::Positive, "it needs words for what more of it means");
    }
    if (own.floor <= 0.0) {
        return fault(Field::Floor, "the smallest change worth a word must be above zero");
    }
    return std::nullopt;
}

std::optional<std::size_t> columnOf(const Error& error)
{
    std::size_t column = 0;
    const char* end = error.detail.data() + error.detail.size();
    const auto [stopped, fault] = std::from_chars(error.detail.data(), end, column);
    return fault == std::errc{} && stopped == end ? std::optional(column) : std::nullopt;
}

std::optional<OwnFault> faultOfFormula(const OwnMeasure& own)
{
    const auto formula = parseFormula(own.formula);
    if (!formula) {
        return OwnFault{.field = Field::FormulaText,
                        .sentence = formula.error().sentence,
                        .column = columnOf(formula.error())};
    }
    if (!unitFits(own.unit, formula->root.kind)) {
        return OwnFault{.field = Field::Unit,
                        .sentence = "the formula gives " +
                                    std::string(unitsOf(formula->root.kind)) + ", not " +
                                    std::string(symbolOf(own.unit))};
    }
    return std::nullopt;
}

std::string instantWords(const OwnFormula& formula)
{
    std::string words;
    for (const auto instant : formula.instants) {
        words += (words.empty() ? "" : ", ") + std::string(nameOf(instant));
    }
    return words.empty() ? (formula.wholeStride ? "stride" : "stance") : words;
}

std::string lowerFirst(std::string text)
{
    // "Ankle ahead" begins small within a sentence, "ASIS height" does not.
    if (text.size() > 1 && std::islower(static_cast<unsigned char>(text[1]))) {
        text.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
    }
    return text;
}

/// Where the picture shows it: the one instant it is read at.
std::optional<Instant> shownAt(const OwnFormula& formula)
{
    return formula.instants.size() == 1 ? std::optional(formula.instants.front()) : std::nullopt;
}

/// The lines of a formula of one value of near points; of anything more there is no one picture.
Drawing drawingOf(const OwnFormula& formula)
{
    const auto& root = formula.root;
    const auto& points = root.landmarks;
    if (formula.bySides || !root.parts.empty() || points.size() < 2) {
        return {};
    }
    switch (root.is) {
    case OwnFormula::Node::Is::Ahead:
        return HorizontalGap{points[1], points[0]};
    case OwnFormula::Node::Is::Above:
        return VerticalGap{points[1], points[0]};
    case OwnFormula::Node::Is::Lean:
    case OwnFormula::Node::Is::Hang:
        return AngleToPlumb{points[0], points[1]};
    default:
        return {};
    }
}

} // namespace

std::optional<OwnFault> faultOf(const std::vector<OwnMeasure>& all, std::size_t at)
{
    auto fault = faultOfTexts(all[at], all);
    return fault ? fault : faultOfFormula(all[at]);
}

Outcome<OwnMeasures> OwnMeasures::from(std::vector<OwnMeasure> definitions)
{
    auto held = std::make_shared<Held>();
    held->definitions = std::move(definitions);
    std::vector<OwnFormula> formulas;
    for (std::size_t i = 0; i < held->definitions.size(); ++i) {
        const auto& own = held->definitions[i];
        if (const auto fault = faultOf(held->definitions, i)) {
            return fail(Error::Kind::Damaged, "own measure '" + own.id + "': " + fault->sentence);
        }
        ASSIGN_OR_RETURN(auto formula, parseFormula(own.formula));
        const auto name = lowerFirst(own.name);
        held->texts.push_back({.instant = instantWords(formula),
                               .meaning = own.meaning.empty() ? own.formula + "." : own.meaning,
                               .source = "The coach's own: " + own.formula + ".",
                               .more = name + " is {} more (" + own.positive + ")",
                               .less = name + " is {} less (more: " + own.positive + ")",
                               .same = name});
        formulas.push_back(std::move(formula));
    }
    for (std::size_t i = 0; i < formulas.size(); ++i) {
        const auto& own = held->definitions[i];
        const auto& texts = held->texts[i];
        const auto& formula = formulas[i];
        held->table.push_back(
            Measure{.id = own.id,
                    .name = own.name,
                    .unit = own.unit,
                    .decimals = own.decimals,
                    .positive = own.positive,
                    .feet = formula.bySides ? Feet::Behind : own.feet,
                    .over = formula.wholeStride ? Over::Stride : Over::Step,
                    .instant = shownAt(formula),
                    .instantWords = texts.instant,
                    .landmarks = formula.landmarks,
                    .floor = own.floor,
                    .betweenDays = own.unit == Unit::Degree ? 2.0 : 1.4,
                    .rateAtContact = cautiousRate(formula.root.kind),
                    .rateAtMidStance = cautiousRate(formula.root.kind),
                    .meaning = texts.meaning,
                    .traps = "Made up by the coach: nobody has published how well it repeats.",
                    .source = texts.source,
                    .more = texts.more,
                    .less = texts.less,
                    .same = texts.same,
                    .drawing = drawingOf(formula),
                    .fromFrontToo = true,
                    .formula = [formula](Evidence& step) { return valueOf(formula, step); }});
    }
    OwnMeasures made;
    made.m_held = std::move(held);
    return made;
}

std::span<const OwnMeasure> OwnMeasures::definitions() const
{
    return m_held ? std::span<const OwnMeasure>(m_held->definitions)
                  : std::span<const OwnMeasure>();
}

std::span<const Measure> OwnMeasures::table() const
{
    return m_held ? std::span<const Measure>(m_held->table) : std::span<const Measure>();
}

const Measure* OwnMeasures::find(std::string_view id) const
{
    const auto own = table();
    const auto found = std::ranges::find(own, id, &Measure::id);
    return found != own.end() ? &*found : findMeasure(id);
}

std::vector<const Measure*> OwnMeasures::all() const
{
    std::vector<const Measure*> measures;
    for (const auto& measure : measureTable()) {
        measures.push_back(&measure);
    }
    const auto own = table();
    for (const auto& measure : own) {
        measures.push_back(&measure);
    }
    return measures;
}

bool OwnMeasures::operator==(const OwnMeasures& other) const
{
    return std::ranges::equal(definitions(), other.definitions());
}

} // namespace latemile
