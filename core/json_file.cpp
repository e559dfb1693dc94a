// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json_file.hpp"

#include "core/csv.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace latemile {

namespace {

constexpr std::size_t largestDocument = std::size_t{64} << 20;
/// The library's own writing and copying of a document are recursive: deeper ones end the program.
constexpr int deepest = 64;

/// Thrown through the parser by its callback, which cannot stop it otherwise; ends in parseJson.
struct Refused {
    std::string what;
};

/// Watches a document being parsed for what the parser lets pass.
class Watch {
public:
    bool operator()(int depth, nlohmann::json::parse_event_t event, const nlohmann::json& parsed)
    {
        using Event = nlohmann::json::parse_event_t;
        if (depth > deepest) {
            throw Refused{"it is nested deeper than " + std::to_string(deepest) + " levels"};
        }
        if (event == Event::object_start) {
            m_keys.emplace_back();
        } else if (event == Event::object_end) {
            m_keys.pop_back();
        } else if (event == Event::key) {
            const auto& key = parsed.get_ref<const std::string&>();
            if (!m_keys.back().insert(key).second) {
                throw Refused{"the key '" + key + "' stands twice in one object"};
            }
        }
        return true;
    }

private:
    std::vector<std::set<std::string>> m_keys; ///< of the objects begun and not ended
};

std::string shownPlace(const std::string& where, const std::string& pointer)
{
    return pointer.empty() ? where : where + ", " + pointer;
}

/// "3.9", "'text'", "a list": what stands there, for a fault.
std::string shown(const nlohmann::json& value)
{
    if (value.is_object() || value.is_array()) {
        return value.is_object() ? "an object" : "a list";
    }
    auto text = value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return text.size() > 40 ? text.substr(0, 40) + "..." : text;
}

std::string onOneLine(const nlohmann::json& value)
{
    return value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

/// A row of a table: nothing in it but plain values and points.
bool isRow(const nlohmann::json& value)
{
    const auto isPlain = [](const nlohmann::json& item) {
        return item.is_primitive() ||
               (item.is_array() && std::all_of(item.begin(), item.end(), [](const auto& number) {
                    return number.is_primitive();
                }));
    };
    return std::all_of(value.begin(), value.end(), isPlain);
}

void write(const nlohmann::json& value, std::size_t depth, std::string& text)
{
    if (value.is_primitive() || value.empty() || (depth > 0 && isRow(value))) {
        text += onOneLine(value);
        return;
    }
    const bool isObject = value.is_object();
    text += isObject ? "{" : "[";
    bool first = true;
    for (const auto& [key, member] : value.items()) {
        text += (first ? "\n" : ",\n") + std::string(2 * (depth + 1), ' ');
        text += isObject ? onOneLine(key) + ": " : "";
        write(member, depth + 1, text);
        first = false;
    }
    text += "\n" + std::string(2 * depth, ' ') + (isObject ? "}" : "]");
}

std::string wordsOf(NumberRange range)
{
    if (range.greatest == anyNumber.greatest) {
        return range.least == aboveZero.least ? "above 0" : "at least " + numberText(range.least);
    }
    return "between " + numberText(range.least) + " and " + numberText(range.greatest);
}

} // namespace

Outcome<nlohmann::json> parseJson(std::string_view text, const std::string& name)
{
    Watch watch;
    try {
        return nlohmann::json::parse(
            text, [&watch](int depth, nlohmann::json::parse_event_t event, nlohmann::json& parsed) {
                return watch(depth, event, parsed);
            });
    } catch (const Refused& refused) {
        return fail(Error::Kind::Damaged, name + ": " + refused.what + ".");
    } catch (const nlohmann::json::parse_error& error) {
        const auto before = std::min(error.byte > 0 ? error.byte - 1 : 0, text.size());
        const auto line = 1 + std::count(text.begin(), text.begin() + before, '\n');
        return fail(Error::Kind::Damaged,
                    name + " line " + std::to_string(line) + ": this is no valid JSON.",
                    error.what());
    } catch (const nlohmann::json::exception& error) {
        return fail(Error::Kind::Damaged, name + ": a number is too large.", error.what());
    }
}

Outcome<nlohmann::json> readJsonFile(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto text, readWholeFile(file));
    if (text.size() > largestDocument) {
        return fail(Error::Kind::Unsupported,
                    "The file " + file.string() + " is larger than 64 MiB, too large to be ours.");
    }
    return parseJson(text, file.string());
}

std::string jsonText(const nlohmann::json& document)
{
    std::string text;
    write(document, 0, text);
    return text + "\n";
}

Outcome<std::optional<JsonField>> JsonField::maybe(std::string_view key) const
{
    if (!m_value->is_object()) {
        return fault("an object is wanted here, not " + shown(*m_value));
    }
    const auto found = m_value->find(std::string(key));
    if (found == m_value->end() || found->is_null()) {
        return std::optional<JsonField>{};
    }
    return std::optional<JsonField>(JsonField(*found, m_where, m_pointer + "/" + std::string(key)));
}

Outcome<JsonField> JsonField::member(std::string_view key) const
{
    ASSIGN_OR_RETURN(const auto found, maybe(key));
    if (!found) {
        return fault("the field '" + std::string(key) + "' is missing");
    }
    return *found;
}

Outcome<std::vector<JsonField>> JsonField::items() const
{
    if (!m_value->is_array()) {
        return fault("a list is wanted here, not " + shown(*m_value));
    }
    std::vector<JsonField> all;
    for (std::size_t i = 0; i < m_value->size(); ++i) {
        all.push_back(JsonField((*m_value)[i], m_where, m_pointer + "/" + std::to_string(i)));
    }
    return all;
}

Outcome<std::vector<double>> JsonField::numbers(std::size_t count) const
{
    ASSIGN_OR_RETURN(const auto all, items());
    if (all.size() != count) {
        return fault(std::to_string(count) + " numbers are wanted here, not " +
                     std::to_string(all.size()));
    }
    std::vector<double> values;
    for (const auto& item : all) {
        ASSIGN_OR_RETURN(const double value, item.number());
        values.push_back(value);
    }
    return values;
}

Outcome<double> JsonField::number(NumberRange range) const
{
    if (!m_value->is_number()) {
        return fault("a number is wanted here, not " + shown(*m_value));
    }
    const auto value = m_value->get<double>();
    if (!std::isfinite(value) || value < range.least || value > range.greatest) {
        return fault("the number must be " + wordsOf(range) + ", not " + shown(*m_value));
    }
    return value;
}

Outcome<std::int64_t> JsonField::integer(std::int64_t least, std::int64_t greatest) const
{
    const bool tooLarge = m_value->is_number_unsigned() &&
                          m_value->get<std::uint64_t>() >
                              static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
    if (!m_value->is_number_integer() || tooLarge) {
        return fault("a whole number is wanted here, not " + shown(*m_value));
    }
    const auto value = m_value->get<std::int64_t>();
    if (value < least || value > greatest) {
        return fault("the number must be between " + std::to_string(least) + " and " +
                     std::to_string(greatest) + ", not " + std::to_string(value));
    }
    return value;
}

Outcome<std::string> JsonField::text() const
{
    if (!m_value->is_string()) {
        return fault("a text is wanted here, not " + shown(*m_value));
    }
    return m_value->get<std::string>();
}

Outcome<bool> JsonField::boolean() const
{
    if (!m_value->is_boolean()) {
        return fault("true or false is wanted here, not " + shown(*m_value));
    }
    return m_value->get<bool>();
}

Outcome<double> JsonField::number(std::string_view key, NumberRange range) const
{
    ASSIGN_OR_RETURN(const auto field, member(key));
    return field.number(range);
}

Outcome<std::string> JsonField::text(std::string_view key) const
{
    ASSIGN_OR_RETURN(const auto field, member(key));
    return field.text();
}

Outcome<std::optional<double>> JsonField::optionalNumber(std::string_view key,
                                                         NumberRange range) const
{
    ASSIGN_OR_RETURN(const auto field, maybe(key));
    if (!field) {
        return std::optional<double>{};
    }
    ASSIGN_OR_RETURN(const double value, field->number(range));
    return std::optional<double>(value);
}

Outcome<std::optional<bool>> JsonField::optionalBoolean(std::string_view key) const
{
    ASSIGN_OR_RETURN(const auto field, maybe(key));
    if (!field) {
        return std::optional<bool>{};
    }
    ASSIGN_OR_RETURN(const bool value, field->boolean());
    return std::optional<bool>(value);
}

Outcome<std::string> JsonField::optionalText(std::string_view key) const
{
    ASSIGN_OR_RETURN(const auto field, maybe(key));
    return field ? field->text() : Outcome<std::string>(std::string{});
}

tl::unexpected<Error> JsonField::fault(std::string_view what, Error::Kind kind) const
{
    return fail(kind, place() + ": " + std::string(what) + ".");
}

std::string JsonField::place() const
{
    return shownPlace(m_where, m_pointer);
}

Outcome<void> needVersion(const JsonField& document, std::int64_t known)
{
    ASSIGN_OR_RETURN(const auto field, document.member("version"));
    ASSIGN_OR_RETURN(const auto version,
                     field.integer(0, std::numeric_limits<std::int64_t>::max()));
    if (version != known) {
        return field.fault("the document is of version " + std::to_string(version) +
                               ", this Latemile reads version " + std::to_string(known) +
                               " alone; use the Latemile that wrote it or a newer one",
                           Error::Kind::Unsupported);
    }
    return {};
}

} // namespace latemile
