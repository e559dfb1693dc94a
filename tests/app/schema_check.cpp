// SPDX-License-Identifier: GPL-3.0-or-later
// Alone includes valijson, which is slow to compile.
#include "tests/app/schema_check.hpp"

#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <memory>

namespace latemile::tests {

namespace {

using Adapter = valijson::adapters::NlohmannJsonAdapter;

std::unique_ptr<nlohmann::json> schemaFile(const std::string& name)
{
    const auto file = std::filesystem::path(LATEMILE_SOURCE_DIR) / "resources" / "schema" / name;
    return std::make_unique<nlohmann::json>(nlohmann::json::parse(bytesOf(file)));
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
    const auto text = schemaFile(name + ".schema.json");
    valijson::Schema schema;
    valijson::SchemaParser parser;
    parser.populateSchema(Adapter(*text), schema, &fetch, &release);
    valijson::Validator validator;
    valijson::ValidationResults results;
    validator.validate(schema, Adapter(document), &results);
    std::string faults;
    for (const auto& fault : results) {
        faults += fault.description;
        for (const auto& part : fault.context) {
            faults += " " + part;
        }
        faults += "\n";
    }
    return faults;
}

} // namespace latemile::tests
