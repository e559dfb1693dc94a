// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/trends.json: Helsel & Hirsch, Statistical Methods in Water Resources (USGS),
// example of Theil's slope (from memory); NIST StRD Norris and made-up re-films. Computed with
// SciPy 1.10.1 theilslopes, the slopes again by all pairs in R 4.2.2.
#include "core/compare/refilms.hpp"
#include "core/compare/trend.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

#include <cmath>

using namespace latemile;
using namespace latemile::testing;

TEST_CASE("the slope of all pairs and its interval are SciPy's", "[compare][outside]")
{
    int checked = 0;
    const auto data = referenceJson("trends.json");
    for (const auto& given : data.at("cases")) {
        const auto& expect = given.at("expect");
        if (!expect.contains("theil_sen_slope")) {
            continue;
        }
        INFO(given.at("id"));
        const auto found = theilSen(given.at("x").get<std::vector<double>>(),
                                    given.at("y").get<std::vector<double>>());
        REQUIRE(found);
        CHECK(found->slope == Approx(expect.at("theil_sen_slope").get<double>()).epsilon(1e-7));
        CHECK(found->intercept ==
              Approx(expect.at("theil_sen_intercept_median_y_minus_slope_median_x").get<double>())
                  .epsilon(1e-7)
                  .margin(1e-9));
        REQUIRE(found->interval);
        const auto& interval = expect.at("theil_sen_slope_ci95_scipy");
        CHECK(found->interval->low == Approx(interval[0].get<double>()).epsilon(1e-7));
        CHECK(found->interval->high == Approx(interval[1].get<double>()).epsilon(1e-7));
        ++checked;
    }
    CHECK(checked == 4);
}

TEST_CASE("a published line is met where there is next to no noise", "[compare][outside]")
{
    // NIST StRD Norris, least squares, certified slope 1.00211681802045: the median of 630 pair
    // slopes of nearly exact data lies within a thousandth of it.
    const auto data = referenceJson("trends.json");
    const auto& norris = data.at("cases").at(0);
    const auto found = theilSen(norris.at("x").get<std::vector<double>>(),
                                norris.at("y").get<std::vector<double>>());
    REQUIRE(found);
    CHECK(found->slope == Approx(norris.at("published").at("slope").get<double>()).epsilon(1e-3));
}

TEST_CASE("a trend needs points that differ and five of them for an interval", "[compare]")
{
    CHECK_FALSE(theilSen({1.0}, {1.0}));
    CHECK_FALSE(theilSen({1.0, 1.0}, {1.0, 2.0}));
    CHECK_FALSE(theilSen({1.0, 2.0}, {1.0}));
    CHECK_FALSE(theilSen({1.0, 2.0}, {1.0, std::nan("")}));
    const auto four = theilSen({1.0, 2.0, 3.0, 4.0}, {1.0, 2.0, 3.0, 4.0});
    REQUIRE(four);
    CHECK(four->slope == Approx(1.0));
    CHECK_FALSE(four->interval);
}

TEST_CASE("a date is days since 1970", "[compare][outside]")
{
    // date -u -d DATE +%s (GNU coreutils) over 86400.
    CHECK(dayNumber("1970-01-01") == 0);
    CHECK(dayNumber("2000-03-01") == 11017);
    CHECK(dayNumber("2026-08-29") == 20694);
    for (const auto* wrong : {"", "2026-8-29", "2026-02-30", "2026-13-01", "29.08.2026",
                              "2026-08-29T10:00", "2026--1-01"}) {
        CHECK_FALSE(dayNumber(wrong));
    }
}
