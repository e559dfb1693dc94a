// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json_file.hpp"

#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;

namespace {

std::string faultOf(std::string_view text)
{
    const auto parsed = parseJson(text, "SCENE.json");
    return parsed ? "no fault" : parsed.error().sentence;
}

nlohmann::json document(std::string_view text)
{
    return parseJson(text, "SCENE.json").value();
}

std::string nested(int levels)
{
    return std::string(static_cast<std::size_t>(levels), '[') +
           std::string(static_cast<std::size_t>(levels), ']');
}

} // namespace

TEST_CASE("a text that is no JSON is refused with its line", "[json_file]")
{
    CHECK(faultOf("{\n\"a\": 1,\n}") == "SCENE.json line 3: this is no valid JSON.");
    CHECK(faultOf("") == "SCENE.json line 1: this is no valid JSON.");
    CHECK(faultOf("{\"a\": NaN}") == "SCENE.json line 1: this is no valid JSON.");
    CHECK(faultOf("{} {}") == "SCENE.json line 1: this is no valid JSON.");
    CHECK(faultOf("\"\xFF\"") == "SCENE.json line 1: this is no valid JSON.");
    CHECK(faultOf("1e999").find("SCENE.json") == 0);
}

TEST_CASE("a document deeper than 64 levels is refused", "[json_file]")
{
    CHECK(faultOf(nested(64)) == "no fault");
    CHECK(faultOf(nested(66)) == "SCENE.json: it is nested deeper than 64 levels.");
    CHECK(faultOf(nested(1'000'000)) == "SCENE.json: it is nested deeper than 64 levels.");
}

TEST_CASE("a key twice in one object is refused and in two objects is not", "[json_file]")
{
    CHECK(faultOf(R"({"a": 1, "b": {"a": 1}, "c": {"a": 2}})") == "no fault");
    CHECK(faultOf(R"({"a": 1, "b": {"a": 1}, "a": 2})") ==
          "SCENE.json: the key 'a' stands twice in one object.");
}

TEST_CASE("a fault names the file and the place in it", "[json_file]")
{
    const auto whole = document(R"({"scale": {"length_cm": "tall", "a": [1, 2, 3]}})");
    const auto scale = JsonField(whole, "SCENE.json").member("scale").value();
    CHECK(scale.number("length_cm").error().sentence ==
          "SCENE.json, /scale/length_cm: a number is wanted here, not \"tall\".");
    CHECK(scale.member("a").value().numbers(2).error().sentence ==
          "SCENE.json, /scale/a: 2 numbers are wanted here, not 3.");
    CHECK(scale.member("b").error().sentence == "SCENE.json, /scale: the field 'b' is missing.");
    CHECK(scale.member("a").value().maybe("x").error().sentence ==
          "SCENE.json, /scale/a: an object is wanted here, not a list.");
    CHECK(scale.items().error().sentence ==
          "SCENE.json, /scale: a list is wanted here, not an object.");
}

TEST_CASE("nothing is converted in silence", "[json_file]")
{
    const auto whole = document(
        R"({"t": true, "f": 3.9, "w": 4.0, "n": 7, "big": 1e30, "s": "7", "u": 18446744073709551615,
            "null": null})");
    const JsonField field(whole, "X");
    CHECK_FALSE(field.number("t"));
    CHECK_FALSE(field.number("s"));
    CHECK_FALSE(field.number("null"));
    const auto name = GENERATE(as<std::string>{}, "t", "f", "w", "big", "s", "u");
    CAPTURE(name);
    CHECK_FALSE(field.member(name).value().integer(0, std::numeric_limits<std::int64_t>::max()));
    CHECK(field.member("n").value().integer(0, 7).value() == 7);
    CHECK_FALSE(field.member("n").value().integer(0, 6));
    CHECK_FALSE(field.member("n").value().text());
    CHECK_FALSE(field.member("n").value().boolean());
    CHECK(field.number("n").value() == 7.0);
}

TEST_CASE("a number out of its range is refused in words", "[json_file]")
{
    const auto whole = document(R"({"n": -1, "zero": 0})");
    const JsonField field(whole, "X");
    CHECK(field.number("n", notNegative).error().sentence ==
          "X, /n: the number must be at least 0, not -1.");
    CHECK(field.number("zero", aboveZero).error().sentence ==
          "X, /zero: the number must be above 0, not 0.");
    CHECK(field.number("n", {0.0, 10.0}).error().sentence ==
          "X, /n: the number must be between 0 and 10, not -1.");
    CHECK(field.number("zero", notNegative).value() == 0.0);
}

TEST_CASE("null and absent are the same: nothing", "[json_file]")
{
    const auto whole = document(R"({"a": null})");
    const JsonField field(whole, "X");
    CHECK_FALSE(field.optionalNumber("a").value());
    CHECK_FALSE(field.optionalNumber("b").value());
    CHECK_FALSE(field.optionalBoolean("a").value());
    CHECK(field.optionalText("a").value().empty());
}

TEST_CASE("a document of an unknown version is refused", "[json_file]")
{
    const auto whole = document(R"({"version": 2})");
    CHECK(needVersion(JsonField(whole, "session.json"), 2));
    CHECK(needVersion(JsonField(whole, "session.json"), 1).error().sentence ==
          "session.json, /version: the document is of version 2, this Latemile reads version 1 "
          "alone; use the Latemile that wrote it or a newer one.");
    const auto none = document("{}");
    CHECK_FALSE(needVersion(JsonField(none, "session.json"), 1));
}

TEST_CASE("text that is no UTF-8 does not stop a document from being written", "[json_file]")
{
    CHECK(jsonText({{"note", "Zo\xEB"}}) == "{\n  \"note\": \"Zo\xEF\xBF\xBD\"\n}\n");
}

TEST_CASE("a written document reads back the same, each row of a table on one line", "[json_file]")
{
    const auto whole = document(R"({"rows": [{"x": 0.1, "at": [1, 2]}, {"x": null}], "empty": [],
                                    "quote\"d": {"deep": {"deeper": {"text": "a\nb"}}}})");
    const auto text = jsonText(whole);
    CHECK(document(text) == whole);
    CHECK(text.find("\n    {\"at\":[1,2],\"x\":0.1},\n") != std::string::npos);
}

TEST_CASE("a document file that is missing or too large is refused by name", "[json_file]")
{
    const tests::ScratchFolder folder;
    CHECK(readJsonFile(folder / "none.json").error().kind == Error::Kind::NotFound);
    const auto large = folder.file("large.json", "");
    std::filesystem::resize_file(large, (std::uintmax_t{64} << 20) + 1);
    CHECK(readJsonFile(large).error().sentence.find("64 MiB") != std::string::npos);
    CHECK(readJsonFile(folder.file("ok.json", "[1]")).value() == nlohmann::json{1});
}
