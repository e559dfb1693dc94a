// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/own_measures.hpp"

#include "core/measures/own_formula.hpp"

#include <algorithm>
#include <cctype>

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
/// for lengths, 300 degrees a second for angles: the greatest of the table's own (A), since nothing
/// is known of a formula just made up.
ValueRate cautiousRate(OwnFormula::Kind kind)
{
    return kind == OwnFormula::Kind::Angle ? ValueRate{ValueRate::Of::Fixed, 300.0}
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

tl::unexpected<Error> faultOf(const OwnMeasure& own, std::string_view what)
{
    return fail(Error::Kind::Damaged, "own measure '" + own.id + "': " + std::string(what));
}

Outcome<void> checkTexts(const OwnMeasure& own, const std::vector<OwnMeasure>& all)
{
    if (!isId(own.id)) {
        return faultOf(own, "an id is small letters, digits and '_', and begins with a letter");
    }
    if (findMeasure(own.id) != nullptr) {
        return faultOf(own, "Latemile has a measure of this id; choose another");
    }
    if (std::ranges::count(all, own.id, &OwnMeasure::id) > 1) {
        return faultOf(own, "the id is given twice");
    }
    if (own.name.empty() || own.positive.empty()) {
        return faultOf(own, "it needs a name, and words for what more of it means");
    }
    if (own.name.find("{}") != std::string::npos) {
        return faultOf(own, "the name must not hold {}");
    }
    return {};
}

Outcome<OwnFormula> checkedFormula(const OwnMeasure& own)
{
    auto formula = parseFormula(own.formula);
    if (!formula) {
        return faultOf(own, formula.error().sentence);
    }
    if (!unitFits(own.unit, formula->root.kind)) {
        return faultOf(own, "the formula gives " + std::string(unitsOf(formula->root.kind)) +
                                ", not " + std::string(symbolOf(own.unit)));
    }
    return formula;
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

} // namespace

Outcome<OwnMeasures> OwnMeasures::from(std::vector<OwnMeasure> definitions)
{
    auto held = std::make_shared<Held>();
    held->definitions = std::move(definitions);
    std::vector<OwnFormula> formulas;
    for (const auto& own : held->definitions) {
        RETURN_IF_ERROR(checkTexts(own, held->definitions));
        ASSIGN_OR_RETURN(auto formula, checkedFormula(own));
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
