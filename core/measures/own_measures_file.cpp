// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/measures/own_measures.hpp"

#include <array>
#include <utility>

namespace latemile {

namespace {

constexpr std::array units{Unit::Centimetre, Unit::Degree, Unit::Percent, Unit::None};
constexpr std::array<std::pair<Feet, std::string_view>, 2> feetWords{
    {{Feet::Near, "near"}, {Feet::Together, "both"}}};

Outcome<Unit> unitFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const auto word, row.text("unit"));
    for (const auto unit : units) {
        if (symbolOf(unit) == word) {
            return unit;
        }
    }
    return row.fault("'" + word + "' is no unit of an own measure; they are cm, deg, % and -");
}

Outcome<Feet> feetFrom(const JsonField& row)
{
    ASSIGN_OR_RETURN(const auto word, row.optionalText("feet"));
    for (const auto& [feet, known] : feetWords) {
        if (word == known || (word.empty() && feet == Feet::Near)) {
            return feet;
        }
    }
    return row.fault("feet is '" + word + "'; it is near or both");
}

Outcome<OwnMeasure> ownFrom(const JsonField& row)
{
    OwnMeasure own;
    ASSIGN_OR_RETURN(own.id, row.text("id"));
    ASSIGN_OR_RETURN(own.name, row.text("name"));
    ASSIGN_OR_RETURN(own.formula, row.text("formula"));
    ASSIGN_OR_RETURN(own.unit, unitFrom(row));
    ASSIGN_OR_RETURN(own.positive, row.text("positive"));
    ASSIGN_OR_RETURN(own.floor, row.number("floor", aboveZero));
    ASSIGN_OR_RETURN(const auto decimals, row.optionalNumber("decimals", NumberRange{0.0, 4.0}));
    own.decimals = static_cast<int>(decimals.value_or(1.0));
    ASSIGN_OR_RETURN(own.feet, feetFrom(row));
    ASSIGN_OR_RETURN(own.meaning, row.optionalText("meaning"));
    return own;
}

std::string_view wordOf(Feet feet)
{
    return feet == Feet::Together ? "both" : "near";
}

} // namespace

Outcome<OwnMeasures> ownMeasuresFrom(const JsonField& measures)
{
    ASSIGN_OR_RETURN(const auto rows, measures.items());
    std::vector<OwnMeasure> definitions;
    for (const auto& row : rows) {
        ASSIGN_OR_RETURN(auto own, ownFrom(row));
        definitions.push_back(std::move(own));
    }
    auto made = OwnMeasures::from(std::move(definitions));
    if (!made) {
        return measures.fault(made.error().sentence);
    }
    return made;
}

Outcome<OwnMeasures> readOwnMeasures(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    const JsonField field(document, file.string());
    RETURN_IF_ERROR(needVersion(field, 1));
    ASSIGN_OR_RETURN(const auto measures, field.member("measures"));
    ASSIGN_OR_RETURN(auto own, ownMeasuresFrom(measures));
    RETURN_IF_ERROR(needSchema(field, "own_measures"));
    return own;
}

nlohmann::json toJson(const OwnMeasures& own)
{
    auto rows = nlohmann::json::array();
    for (const auto& measure : own.definitions()) {
        rows.push_back({{"id", measure.id},
                        {"name", measure.name},
                        {"formula", measure.formula},
                        {"unit", symbolOf(measure.unit)},
                        {"positive", measure.positive},
                        {"floor", measure.floor},
                        {"decimals", measure.decimals},
                        {"feet", wordOf(measure.feet)},
                        {"meaning", measure.meaning}});
    }
    return rows;
}

} // namespace latemile
