// SPDX-License-Identifier: GPL-3.0-or-later
// Alone includes valijson, which is slow to compile.
#include "app/batch/schema_fault.hpp"

#include "app/resource_folder.hpp"
#include "core/whole_file.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <exception>
#include <memory>
#include <stdexcept>

namespace latemile::batch {

namespace {

using Adapter = valijson::adapters::NlohmannJsonAdapter;

std::unique_ptr<nlohmann::json> schemaFile(const std::string& name)
{
    const auto text = readWholeFile(resourceFolder() / "schema" / name);
    if (!text) {
        throw std::runtime_error(text.error().sentence); // ends below, with valijson's own
    }
    return std::make_unique<nlohmann::json>(nlohmann::json::parse(*text));
}

/// Schemas name one another by file: "scene.schema.json", wherever the reader puts it.
const nlohmann::json* fetch(const std::string& uri)
{
    return schemaFile(uri.substr(uri.rfind('/') + 1)).release();
}

void release(const nlohmann::json* document)
{
    delete document;
}

} // namespace

std::string faultBySchema(const std::string& name, const nlohmann::json& document)
{
    try {
        const auto text = schemaFile(name + ".schema.json");
        valijson::Schema schema;
        valijson::SchemaParser parser;
        parser.populateSchema(Adapter(*text), schema, &fetch, &release);
        valijson::Validator validator;
        valijson::ValidationResults results;
        valijson::ValidationResults::Error fault;
        if (validator.validate(schema, Adapter(document), &results) || !results.popError(fault)) {
            return {};
        }
        std::string place;
        for (const auto& part : fault.context) {
            place += part;
        }
        return place + ": " + fault.description;
    } catch (const std::exception& reason) {
        return std::string("the schema could not be used: ") + reason.what();
    }
}

} // namespace latemile::batch
