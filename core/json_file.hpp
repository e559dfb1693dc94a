// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <filesystem>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// A document of ours from its text: UTF-8, at most 64 levels deep, no key twice in one object.
/// `name` stands for the file in faults: "session.json line 4: ...".
Outcome<nlohmann::json> parseJson(std::string_view text, const std::string& name);
/// The same from a file of at most 64 MiB.
Outcome<nlohmann::json> readJsonFile(const std::filesystem::path& file);
/// Text of a document, indented by two, each row of a table on a line of its own, with a line end;
/// bad UTF-8 in it becomes the replacement character.
[[nodiscard]] std::string jsonText(const nlohmann::json& document);

/// What a number may be; both ends belong to it.
struct NumberRange {
    double least{std::numeric_limits<double>::lowest()};
    double greatest{std::numeric_limits<double>::max()};
};
inline constexpr NumberRange anyNumber{};
inline constexpr NumberRange notNegative{0.0};
/// Smaller than anything measured, so that a division by it is safe.
inline constexpr NumberRange aboveZero{1e-9};

/// A value of a document together with its place, so that every fault says where it stands:
/// "SCENE.json, /scale/length_cm: ...". Nothing is converted in silence: 3.9 is no whole number,
/// true is no number. Looks at the document, which must outlive it.
class JsonField {
public:
    /// `where` goes before the place in faults: "SCENE.json", "session.json".
    JsonField(const nlohmann::json& value, std::string where)
        : m_value(&value), m_where(std::move(where))
    {
    }

    /// Of an object; an absent key and null are the same: there is nothing.
    [[nodiscard]] Outcome<std::optional<JsonField>> maybe(std::string_view key) const;
    [[nodiscard]] Outcome<JsonField> member(std::string_view key) const; ///< absent is a fault
    [[nodiscard]] Outcome<std::vector<JsonField>> items() const;         ///< of an array
    /// Of an array of exactly so many numbers, such as a point.
    [[nodiscard]] Outcome<std::vector<double>> numbers(std::size_t count) const;

    [[nodiscard]] Outcome<double> number(NumberRange range = anyNumber) const;
    [[nodiscard]] Outcome<std::int64_t> integer(std::int64_t least, std::int64_t greatest) const;
    [[nodiscard]] Outcome<std::string> text() const;
    [[nodiscard]] Outcome<bool> boolean() const;

    [[nodiscard]] Outcome<double> number(std::string_view key, NumberRange range = anyNumber) const;
    [[nodiscard]] Outcome<std::string> text(std::string_view key) const;
    [[nodiscard]] Outcome<std::optional<double>>
    optionalNumber(std::string_view key, NumberRange range = anyNumber) const;
    [[nodiscard]] Outcome<std::optional<bool>> optionalBoolean(std::string_view key) const;
    /// Empty where there is none.
    [[nodiscard]] Outcome<std::string> optionalText(std::string_view key) const;

    /// "SCENE.json, /scale: " and `what` and a full stop.
    [[nodiscard]] tl::unexpected<Error> fault(std::string_view what,
                                              Error::Kind kind = Error::Kind::Damaged) const;
    [[nodiscard]] const nlohmann::json& value() const { return *m_value; }
    [[nodiscard]] std::string place() const; ///< "SCENE.json, /scale"

private:
    JsonField(const nlohmann::json& value, std::string where, std::string pointer)
        : m_value(&value), m_where(std::move(where)), m_pointer(std::move(pointer))
    {
    }
    const nlohmann::json* m_value;
    std::string m_where;
    std::string m_pointer;
};

/// A fault unless the document's "version" is `known`: one written by a later Latemile must not be
/// half understood.
Outcome<void> needVersion(const JsonField& document, std::int64_t known);

} // namespace latemile
