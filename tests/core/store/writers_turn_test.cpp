// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/writers_turn.hpp"

#include "core/store/coaches.hpp"
#include "core/store/session.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

#include <thread>
#include <vector>

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("coaches kept by many writers at once are all there", "[store][race]")
{
    const ScratchFolder library;
    constexpr int writers = 8;
    std::vector<std::string> faults(writers);
    {
        std::vector<std::jthread> threads;
        for (int i = 0; i < writers; ++i) {
            threads.emplace_back([&library, &faults, i] {
                Coach coach;
                coach.name = "coach " + std::to_string(i);
                coach.date = "2026-08-29";
                const auto kept = keepCoach(coach, library.path());
                faults[static_cast<std::size_t>(i)] = kept ? "" : kept.error().sentence;
            });
        }
    }
    CHECK(faults == std::vector<std::string>(writers));
    const auto coaches = readCoaches(library.path());
    REQUIRE(coaches);
    CHECK(coaches->size() == writers);
}

TEST_CASE("an athlete changed in two windows keeps both versions", "[store][race]")
{
    const ScratchFolder folder;
    const auto file = folder / "athlete.json";
    Athlete read;
    read.code = "ilse";
    REQUIRE(writeAthlete(read, file));
    Athlete theirs = read;
    theirs.note = "new shoes";
    Athlete ours = read;
    ours.massKg = 61.0;
    REQUIRE(keepAthlete(theirs, read, file));
    const auto kept = keepAthlete(ours, read, file);
    REQUIRE_FALSE(kept);
    CHECK(kept.error().sentence.find("athlete.other-1.json") != std::string::npos);
    CHECK(readAthlete(file) == theirs);
    CHECK(readAthlete(folder / "athlete.other-1.json") == ours);
    CHECK(keepAthlete(ours, theirs, file));
    CHECK(readAthlete(file) == ours);
}

TEST_CASE("a turn that nobody ends is told after a while", "[store][race]")
{
    const ScratchFolder folder;
    const auto first = WritersTurn::take(folder.path());
    REQUIRE(first);
    CHECK_FALSE(WritersTurn::take(folder.path()));
}
