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

nlohmann::json schemaDocument(std::string_view file)
{
    const auto found = std::ranges::find(schemaTexts, file, &SchemaText::file);
    if (found == schemaTexts.end()) {
        throw std::runtime_error("there is no " + std::string(file));
    }
    return nlohmann::json::parse(found->text);
}

/// Schemas name one another by file: "scene.schema.json", wherever valijson puts it. It remembers
/// what "#/definitions/NAME" means without the file, so no two of them may share a NAME.
const nlohmann::json* fetch(const std::string& uri)
{
    const auto file = std::string_view(uri).substr(uri.rfind('/') + 1);
    return std::make_unique<nlohmann::json>(schemaDocument(file)).release();
}

void release(const nlohmann::json* document)
{
    delete document;
}

/// Made when first asked for, and then kept. A schema is only read after that, by any thread.
const valijson::Schema& schemaNamed(const std::string& name)
{
    static std::mutex turn;
    static std::map<std::string, std::unique_ptr<valijson::Schema>> made;
    const std::lock_guard alone(turn);
    auto& schema = made[name];
    if (!schema) {
        const auto document = schemaDocument(name + ".schema.json");
        auto fresh = std::make_unique<valijson::Schema>();
        valijson::SchemaParser().populateSchema(Adapter(document), *fresh, &fetch, &release);
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

std::optional<Fault> faultIn(const nlohmann::json& document, std::string_view name)
{
    try {
        const auto& schema = schemaNamed(std::string(name));
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
    } catch (const std::exception& reason) {
        return Fault{"", sentenceOf(std::string("it could not be used: ") + reason.what())};
    }
}

} // namespace

std::string faultBySchema(std::string_view name, const nlohmann::json& document)
{
    const auto fault = faultIn(document, name);
    return fault ? fault->pointer + ": " + fault->what : std::string();
}

Outcome<void> needSchema(const JsonField& document, std::string_view name)
{
    const auto fault = faultIn(document.value(), name);
    if (!fault) {
        return {};
    }
    return fail(Error::Kind::Damaged, document.place() + (fault->pointer.empty() ? "" : ", ") +
                                          fault->pointer + ": this does not follow " +
                                          std::string(name) + ".schema.json: " + fault->what);
}

} // namespace latemile
