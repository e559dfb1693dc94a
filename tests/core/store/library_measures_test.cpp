// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/library_measures.hpp"

#include "core/store/library_check.hpp"
#include "core/whole_file.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <nlohmann/json.hpp>

using namespace latemile;

namespace {

OwnMeasures examples()
{
    return OwnMeasures::from(exampleOwnMeasures()).value();
}

std::filesystem::path fileIn(const tests::ScratchFolder& library)
{
    return library.path() / "own_measures.json";
}

} // namespace

TEST_CASE("a library without own measures has none, and kept ones come back as they were",
          "[store]")
{
    const tests::ScratchFolder library;
    const auto none = ownMeasuresIn(library.path());
    REQUIRE(none);
    CHECK(none->definitions().empty());
    REQUIRE(keepOwnMeasures(examples(), {}, library.path()));
    CHECK(*ownMeasuresIn(library.path()) == examples());
}

TEST_CASE("own measures are their owner's alone, and the generation before stands beside them",
          "[store]")
{
    namespace fs = std::filesystem;
    const tests::ScratchFolder library;
    REQUIRE(keepOwnMeasures(examples(), {}, library.path()));
    REQUIRE(keepOwnMeasures({}, examples(), library.path()));
    CHECK(fs::status(fileIn(library)).permissions() ==
          (fs::perms::owner_read | fs::perms::owner_write));
    const auto previous = readOwnMeasures(previousGenerationOf(fileIn(library)));
    REQUIRE(previous);
    CHECK(*previous == examples());
}

TEST_CASE("a document of own measures that is damaged, newer or changed meanwhile stays as it is",
          "[store][bad_input]")
{
    const tests::ScratchFolder library;
    const auto refused = [&](const std::string& text, const std::string& words) {
        (void)library.file("own_measures.json", text);
        const auto kept = keepOwnMeasures(examples(), {}, library.path());
        REQUIRE_FALSE(kept);
        CHECK_THAT(kept.error().sentence, containing("own_measures.json") && containing(words));
        CHECK(readWholeFile(fileIn(library)).value() == text);
        CHECK_FALSE(std::filesystem::exists(previousGenerationOf(fileIn(library))));
    };
    refused(R"({"version": 1, "measures": [)", "");
    refused(R"({"version": 2, "measures": []})", "version 2");
    nlohmann::json other{{"version", 1}, {"measures", toJson(examples())}};
    refused(other.dump(), "changed by somebody else");
}

TEST_CASE("the check of a library finds damaged own measures and puts the generation before back",
          "[store]")
{
    const tests::ScratchFolder library;
    REQUIRE(keepOwnMeasures(examples(), {}, library.path()));
    REQUIRE(checkLibrary(library.path(), {})->isSound());
    REQUIRE(keepOwnMeasures({}, examples(), library.path()));
    (void)library.file("own_measures.json", R"({"version": 1, "measures": [{"id": "x"}]})");
    const auto found = checkLibrary(library.path(), {});
    REQUIRE(found);
    CHECK(found->documents == 1);
    CHECK_FALSE(found->isSound());
    REQUIRE(checkLibrary(library.path(), {.repair = true})->isSound());
    CHECK(*ownMeasuresIn(library.path()) == examples());
}
