// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document_schema.hpp"

#include "core/schema_texts.hpp"
#include "tests/catch.hpp"

#include <set>

using namespace latemile;
using nlohmann::json;

namespace {

json day()
{
    return json::parse(R"({"version":1,"date":"2026-08-29","clips":[
        {"file":"clips/fresh.mp4","condition":"fresh","minute":6.0,
         "scene":{"view":"left-side","travel":"left"},"marks":[],"contacts":[]}]})");
}

} // namespace

TEST_CASE("a document that follows its schema has no fault", "[schema]")
{
    CHECK(faultBySchema("session", day()).empty());
    CHECK(needSchema(JsonField(day(), "session.json"), "session"));
}

TEST_CASE("a fault by the schema is told by its JSON pointer", "[schema]")
{
    auto document = day();
    document["clips"][0]["minute"] = -1;
    const auto told = needSchema(JsonField(document, "session.json"), "session");
    REQUIRE(!told);
    const auto& sentence = told.error().sentence;
    CHECK(sentence.find(
              "session.json, /clips/0/minute: this does not follow session.schema.json") == 0);
    CHECK(sentence.ends_with('.'));
    CHECK(told.error().kind == Error::Kind::Damaged);
}

// RFC 6901 (JSON Pointer), section 3: "~" is written "~0" and "/" is written "~1".
TEST_CASE("a pointer escapes a key as RFC 6901 has it", "[schema]")
{
    const json coaches{{"version", 1},
                       {"coaches",
                        {{{"name", "R. Vale"},
                          {"date", "2026-08-29"},
                          {"pairs", 12},
                          {"click_error_cm", {{"a/b~c", -1}}}}}}};
    CHECK(faultBySchema("coaches", coaches).find("/coaches/0/click_error_cm/a~1b~0c: ") == 0);
}

TEST_CASE("what is read may hold nulls and fields of a later version", "[schema]")
{
    auto document = day();
    document["clips"][0]["shoes"] = nullptr;
    document["weather"] = "windy";
    CHECK(needSchema(JsonField(document, "session.json"), "session"));
    const json own{{"version", 1}, {"measures", json::array()}, {"comment", "by hand"}};
    CHECK(needSchema(JsonField(own, "own_measures.json"), "own_measures"));
    CHECK(faultBySchema("own_measures", own) != "");
    document["clips"][0]["minute"] = -1;
    CHECK_FALSE(needSchema(JsonField(document, "session.json"), "session"));
}

TEST_CASE("a change of a journal follows the schemas of what it holds", "[schema]")
{
    CHECK(faultBySchema("journal", json{{"whole", day()}}).empty());
    auto bad = day();
    bad["clips"][0]["condition"] = "rested";
    CHECK(!faultBySchema("journal", json{{"whole", bad}}).empty());
    const json moved{{"clips",
                      {{{"clip", 0},
                        {"marks",
                         {{{"frame", 3},
                           {"side", "near"},
                           {"landmark", "toe"},
                           {"x_px", 1.5},
                           {"y_px", 2.5},
                           {"origin", "placed"}}}}}}}};
    CHECK(faultBySchema("journal", moved).empty());
    CHECK(faultBySchema("edits", json{{"name", "move toe"}, {"forward", moved}, {"back", moved}})
              .empty());
    CHECK(!faultBySchema("journal", json{{"edit", 1}}).empty());
}

TEST_CASE("a document without a schema is no document of ours", "[schema]")
{
    CHECK(!faultBySchema("nothing", json::object()).empty());
}

// Our validator remembers definitions by their name alone, and the schemas name one another.
TEST_CASE("every schema is usable, and no two share the name of a definition", "[schema]")
{
    std::set<std::string> names;
    for (const auto& schema : schemaTexts) {
        INFO(schema.file);
        const auto document = json::parse(schema.text);
        CHECK(document["$schema"] == "http://json-schema.org/draft-07/schema#");
        CHECK(document["$id"] == schema.file);
        const auto name = std::string(schema.file.substr(0, schema.file.find('.')));
        CHECK(faultBySchema(name, json(3)).find("could not be used") == std::string::npos);
        const auto definitions = document.value("definitions", json::object());
        for (const auto& [definition, unused] : definitions.items()) {
            INFO(definition);
            CHECK(names.insert(definition).second);
        }
    }
}
