// SPDX-License-Identifier: GPL-3.0-or-later
// Documents damaged in every way a dice can think of: each is read or refused in one sentence.
#include "tests/catch.hpp"
#include "tests/fuzz/in_child.hpp"
#include "tests/fuzz/mutation.hpp"
#include "tests/fuzz/targets.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>

using namespace latemile::fuzz;

namespace {

/// How many trials of a target ended their process; the first few are printed with their seed.
int failuresOf(const Target& target, int trials, unsigned seed)
{
    constexpr int together = 500;
    const auto sound = target.seed();
    REQUIRE_FALSE(sound.empty());
    int failures = 0;
    for (int from = 0; from < trials; from += together) {
        int next = from;
        const int to = std::min(trials, from + together);
        while (next < to) {
            const auto ended = endedIn(next, to, [&](int trial) {
                std::mt19937 dice(seed + static_cast<unsigned>(trial));
                target.read(mutated(sound, dice));
            });
            if (!ended) {
                break;
            }
            std::cerr << target.name << ": trial " << ended->trial << " of seed " << seed
                      << " ended by signal " << ended->signal << "\n";
            ++failures;
            next = ended->trial + 1;
        }
    }
    return failures;
}

int allFailures(int trialsEach, unsigned seed)
{
    int failures = 0;
    for (const auto& target : targets()) {
        failures += target.seed != nullptr ? failuresOf(target, trialsEach, seed) : 0;
    }
    return failures;
}

} // namespace

TEST_CASE("a sound document of each kind is taken", "[fuzz]")
{
    for (const auto& target : targets()) {
        if (target.seed != nullptr) {
            const auto sound = target.seed();
            CAPTURE(target.name);
            CHECK_FALSE(sound.empty());
            CHECK(target.read(sound));
        }
    }
}

TEST_CASE("a record that was found to break a sentence in two is refused in one", "[fuzz]")
{
    // Found by libFuzzer: a damaged file of the name "sessio\n.json".
    constexpr std::string_view zip(
        "PK\003\004\024\000\010\000\010\000\000\000!\000\000\000\000\000\000\000\000\000v\005"
        "\000\000\034\000\024\000ilse/2026-08-29/sessio\012.jsonUT\001\000\000ux\013\000\001"
        "\004\000\000\000\000\004JP\2228{S",
        80);
    CHECK_FALSE(targetNamed("record").read(zip));
}

TEST_CASE("damaged documents are read or refused, none ends the program", "[fuzz][refusals]")
{
    CHECK(allFailures(1112, 1) == 0); // of eleven kinds: twelve thousand
}

TEST_CASE("ten thousand damaged documents of each kind", "[.][long]")
{
    CHECK(allFailures(10'000, 2) == 0);
}

// By hand: LATEMILE_SEEDS=FOLDER fuzz_test "[seeds]"
TEST_CASE("sound documents as seeds for libFuzzer", "[.][seeds]")
{
    const std::filesystem::path folder = seedFolder();
    for (const auto& target : targets()) {
        if (target.seed != nullptr) {
            std::filesystem::create_directories(folder / target.name);
            std::ofstream(folder / target.name / "sound", std::ios::binary) << target.seed();
        }
    }
}
