// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"
#include "core/outcome.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

class JsonField;

/// A measure a coach made up, as own_measures.json says it.
struct OwnMeasure {
    std::string id{};       ///< letters, digits and '_'; none of the table's
    std::string name{};     ///< for people: "Wrist over hip"
    std::string formula{};  ///< in the words of OwnFormula
    Unit unit{};            ///< cm, deg, % or -; must be what the formula gives
    std::string positive{}; ///< the sign in words: "hand higher"
    double floor{};         ///< smallest change worth a word, in its unit
    int decimals{1};
    Feet feet{Feet::Near}; ///< Near: the near foot's steps; Together: left and right steps pooled
    std::string meaning{}; ///< one sentence; may be empty
    bool operator==(const OwnMeasure&) const = default;
};

/// What keeps a definition from being used, and which of its fields a person has to mend.
struct OwnFault {
    enum class Field { Id, Name, Positive, Unit, FormulaText, Floor };
    Field field{};
    std::string sentence;                ///< what and what to do: "column 12: 'anke' is no ..."
    std::optional<std::size_t> column{}; ///< of the formula's fault, from 1
};
/// The first fault of the definition at `at` among all; nothing where it can be used.
[[nodiscard]] std::optional<OwnFault> faultOf(const std::vector<OwnMeasure>& all, std::size_t at);

/// Two to learn from, whole and sound; help tells them and a new one begins as the first.
[[nodiscard]] const std::vector<OwnMeasure>& exampleOwnMeasures();

/// Own measures made ready: entries like those of the table, read, summed up and compared by the
/// same code. Immutable, copied at the cost of a pointer; any thread. The entries' texts live as
/// long as a copy of this does.
class OwnMeasures {
public:
    OwnMeasures() = default;
    /// A formula that cannot be read, a unit it does not give, an id that is taken, and an empty
    /// text are faults; the sentence names the measure and the column.
    static Outcome<OwnMeasures> from(std::vector<OwnMeasure> definitions);

    [[nodiscard]] std::span<const OwnMeasure> definitions() const;
    [[nodiscard]] std::span<const Measure> table() const;
    /// Of these or of the table; null where there is none.
    [[nodiscard]] const Measure* find(std::string_view id) const;
    /// The table of measures and these after it.
    [[nodiscard]] std::vector<const Measure*> all() const;
    /// The same definitions.
    bool operator==(const OwnMeasures& other) const;

private:
    struct Held;
    std::shared_ptr<const Held> m_held; ///< none: no own measures
};

/// own_measures.json (resources/schema/own_measures.schema.json).
Outcome<OwnMeasures> readOwnMeasures(const std::filesystem::path& file);
/// Of the list of them in a document; faults name its place.
Outcome<OwnMeasures> ownMeasuresFrom(const JsonField& measures);
[[nodiscard]] nlohmann::json toJson(const OwnMeasures& own); ///< that array

} // namespace latemile
