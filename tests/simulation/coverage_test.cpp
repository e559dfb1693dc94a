// SPDX-License-Identifier: GPL-3.0-or-later
// A small part of what latemile-simulate writes to coverage.md: enough to see an error that is
// stated half as large as it is, and a verdict that finds changes where there are none.
#include "core/measures/measure.hpp"
#include "core/rounding.hpp"
#include "tests/catch.hpp"
#include "tests/simulation/coverage_text.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::simulation;

TEST_CASE("stated intervals hold the model's truth and verdicts find no change where there is none",
          "[simulation]")
{
    Study study{.runners = {sideRunners().front()},
                .remarkings = 60,
                .clipSeconds = 5.4,
                .marked = Marked::EveryFrame,
                .seed = 5};
    study.runners.front().video.duration = 16.0;
    const auto result = studied(study).value();
    INFO(tableOf(result));
    int checked = 0;
    int pairs = 0;
    int falselyClear = 0;
    int found = 0;
    for (const auto& [id, counts] : result.byMeasure) {
        pairs += counts.pairs;
        falselyClear += counts.falselyClear;
        found += counts.found.back();
        if (counts.readings < 200) {
            continue;
        }
        INFO(id);
        // Some 400 readings, seven of a clip, whose scene they share: a coverage of 95 % is seen as
        // 95 +- 2 %, one of an error stated at two thirds as 81 %.
        CHECK(counts.readingCoverage() > 88.0);
        // Were the error stated twice as large as it is, all would lie inside, and the spread of
        // the errors would be half of it.
        CHECK(counts.errorSd() > 0.65 * counts.statedSe());
        CHECK(std::abs(counts.bias()) < 0.6 * counts.statedSe());
        ++checked;
    }
    CHECK(checked >= 30);
    REQUIRE(pairs > 900);
    CHECK(falselyClear < 0.05 * pairs);
    CHECK(found > 0.5 * pairs); // had the runner changed by three floors
}

TEST_CASE("the study is the same for the same seed and another for another", "[simulation]")
{
    Study study{.runners = {sideRunners().front()},
                .remarkings = 4,
                .clipSeconds = 2.5,
                .marked = Marked::FirstFrame};
    study.runners.front().video.duration = 6.0;
    const auto once = tableOf(studied(study).value());
    CHECK(once == tableOf(studied(study).value()));
    study.seed = 2;
    CHECK(once != tableOf(studied(study).value()));
}
