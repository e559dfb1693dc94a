// SPDX-License-Identifier: GPL-3.0-or-later
// Alone includes valijson, which is slow to compile.
#include "core/document_schema.hpp"

#include "core/schema_texts.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <algorithm>
#include <exception>
#include <iterator>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

namespace latemile {

namespace {

using Adapter = valijson::adapters::NlohmannJsonAdapter;

/// Written documents hold what the schema names and nothing else. What is read may hold more, of a
/// later version or by hand.
enum class Strictness { Written, Read };

void openUp(nlohmann::json& schema)
{
    if (schema.is_object() && schema.value("additionalProperties", nlohmann::json()) == false) {
        schema.erase("additionalProperties");
    }
    for (auto& part : schema) {
        if (part.is_structured()) {
            openUp(part);
        }
    }
}

/// To our readers null is the same as nothing.
void dropNulls(nlohmann::json& value)
{
    if (value.is_object()) {
        for (auto member = value.begin(); member != value.end();) {
            member = member->is_null() ? value.erase(member) : std::next(member);
        }
    }
    for (auto& part : value) {
        if (part.is_structured()) {
            dropNulls(part);
        }
    }
}

nlohmann::json schemaDocument(std::string_view file, Strictness strictness)
{
    const auto found = std::ranges::find(schemaTexts, file, &SchemaText::file);
    if (found == schemaTexts.end()) {
        throw std::runtime_error("there is no " + std::string(file));
    }
    auto schema = nlohmann::json::parse(found->text);
    if (strictness == Strictness::Read) {
        openUp(schema);
    }
    return schema;
}

/// Schemas name one another by file: "scene.schema.json", wherever valijson puts it. It remembers
/// what "#/definitions/NAME" means without the file, so no two of them may share a NAME.
template <Strictness strictness>
const nlohmann::json* fetch(const std::string& uri)
{
    const auto file = std::string_view(uri).substr(uri.rfind('/') + 1);
    return std::make_unique<nlohmann::json>(schemaDocument(file, strictness)).release();
}

void release(const nlohmann::json* document)
{
    delete document;
}

/// Made when first asked for, and then kept. A schema is only read after that, by any thread.
template <Strictness strictness>
const valijson::Schema& schemaNamed(const std::string& name)
{
    static std::mutex turn;
    static std::map<std::string, std::unique_ptr<valijson::Schema>> made;
    const std::lock_guard alone(turn);
    auto& schema = made[name];
    if (!schema) {
        const auto document = schemaDocument(name + ".schema.json", strictness);
        auto fresh = std::make_unique<valijson::Schema>();
        valijson::SchemaParser().populateSchema(Adapter(document), *fresh, &fetch<strictness>,
                                                &release);
        schema = std::move(fresh);
    }
    return *schema;
}

/// "~" and "/" within a key, as RFC 6901 has them.
std::string escaped(std::string_view key)
{
    std::string text;
    for (const char letter : key) {
        text += letter == '~' ? "~0" : letter == '/' ? "~1" : std::string(1, letter);
    }
    return text;
}

/// Of valijson's "<root>", "[clips]", "[0]".
std::string pointerFrom(const std::vector<std::string>& steps)
{
    std::string pointer;
    for (const std::string_view step : steps) {
        if (step.size() >= 2 && step.front() == '[') {
            pointer += "/" + escaped(step.substr(1, step.size() - 2));
        }
    }
    return pointer;
}

struct Fault {
    std::string pointer;
    std::string what; ///< with a full stop
};

std::string sentenceOf(std::string text)
{
    return text.ends_with('.') ? text : text + ".";
}

std::optional<Fault> faultBy(const valijson::Schema& schema, const nlohmann::json& document)
{
    valijson::Validator validator;
    // Without a list of faults it is several times as fast; few documents need one.
    if (validator.validate(schema, Adapter(document), nullptr)) {
        return std::nullopt;
    }
    valijson::ValidationResults results;
    valijson::ValidationResults::Error fault;
    validator.validate(schema, Adapter(document), &results);
    if (!results.popError(fault)) {
        return Fault{"", "something in it."};
    }
    return Fault{pointerFrom(fault.context), sentenceOf(fault.description)};
}

template <Strictness strictness>
std::optional<Fault> faultIn(const nlohmann::json& document, std::string_view name)
{
    try {
        const auto& schema = schemaNamed<strictness>(std::string(name));
        auto fault = faultBy(schema, document);
        if (fault && strictness == Strictness::Read) {
            auto known = document;
            dropNulls(known);
            fault = faultBy(schema, known);
        }
        return fault;
    } catch (const std::exception& reason) {
        return Fault{"", sentenceOf(std::string("it could not be used: ") + reason.what())};
    }
}

} // namespace

std::string faultBySchema(std::string_view name, const nlohmann::json& document)
{
    const auto fault = faultIn<Strictness::Written>(document, name);
    return fault ? fault->pointer + ": " + fault->what : std::string();
}

Outcome<void> needSchema(const JsonField& document, std::string_view name)
{
    const auto fault = faultIn<Strictness::Read>(document.value(), name);
    if (!fault) {
        return {};
    }
    return fail(Error::Kind::Damaged, document.place() + (fault->pointer.empty() ? "" : ", ") +
                                          fault->pointer + ": this does not follow " +
                                          std::string(name) + ".schema.json: " + fault->what);
}

} // namespace latemile
