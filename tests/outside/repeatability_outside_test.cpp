// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/reliability.json: Shrout & Fleiss 1979, Psychol Bull 86:420, table 2; Weir
// 2005, J Strength Cond Res 19:231, data A (from memory); Bland & Altman 1986, Lancet i:307, table
// 1. Computed with R 4.2.2 (psych 2.2.9) and by the published formulas in NumPy.
#include "core/compare/repeatability.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

Approx near(const nlohmann::json& expected)
{
    return Approx(expected.get<double>()).epsilon(1e-6);
}

void checkInterval(const WithInterval& got, const nlohmann::json& value, const nlohmann::json& low,
                   const nlohmann::json& high)
{
    CHECK(got.value == near(value));
    CHECK(got.low == near(low));
    CHECK(got.high == near(high));
}

std::vector<double> columnOf(const Scores& scores, std::size_t column)
{
    std::vector<double> values;
    for (const auto& row : scores) {
        values.push_back(row[column]);
    }
    return values;
}

} // namespace

TEST_CASE("intraclass correlations and their intervals are those of R's psych",
          "[compare][outside]")
{
    int checked = 0;
    const auto data = referenceJson("reliability.json");
    for (const auto& given : data.at("icc_cases")) {
        INFO(given.at("id"));
        const auto squares =
            meanSquaresOf(given.at("ratings_rows_targets_columns_judges").get<Scores>()).value();
        const auto& expect = given.at("expect");
        const auto& mean = expect.at("mean_squares");
        CHECK(squares.betweenTargets == near(mean.at("between_targets")));
        CHECK(squares.betweenMarkings == near(mean.at("between_judges")));
        CHECK(squares.residual == near(mean.at("residual")));
        CHECK(squares.withinTargets == near(mean.at("within_targets")));
        for (const auto kind : everyIcc) {
            INFO(nameOf(kind));
            const auto& wanted = expect.at("icc").at(std::string(nameOf(kind)));
            const auto got = iccOf(kind, squares);
            REQUIRE(got);
            checkInterval(*got, wanted.at("value"), wanted.at("ci95_low"), wanted.at("ci95_high"));
            ++checked;
        }
    }
    CHECK(checked == 18);
}

TEST_CASE("the six correlations of Shrout and Fleiss are those they printed", "[compare][outside]")
{
    // Printed to two decimals: .17 .29 .71 .44 .62 .91.
    const auto data = referenceJson("reliability.json");
    const auto& given = data.at("icc_cases").at(0);
    const auto squares =
        meanSquaresOf(given.at("ratings_rows_targets_columns_judges").get<Scores>()).value();
    for (const auto kind : everyIcc) {
        const double printed =
            given.at("published_rounded").at(std::string(nameOf(kind))).get<double>();
        CHECK(iccOf(kind, squares)->value == Approx(printed).margin(0.005));
    }
}

TEST_CASE("standard errors of measurement differ by kind as R's do", "[compare][outside]")
{
    const auto data = referenceJson("reliability.json");
    for (const auto& given : data.at("icc_cases")) {
        INFO(given.at("id"));
        const auto scores = given.at("ratings_rows_targets_columns_judges").get<Scores>();
        const auto squares = meanSquaresOf(scores).value();
        const auto& sem = given.at("expect").at("sem");
        CHECK(semOf(Sem::Residual, squares) == near(sem.at("from_residual_mean_square")));
        CHECK(semOf(Sem::WithinTarget, squares) == near(sem.at("from_within_targets_mean_square")));
        CHECK(semOf(Sem::FromIcc21, squares) == near(sem.at("from_sd_all_scores_and_icc_2_1")));
        CHECK(semOf(Sem::FromIcc31, squares) == near(sem.at("from_sd_all_scores_and_icc_3_1")));
        const auto& mdc = given.at("expect").at("mdc95");
        CHECK(mdc95(semOf(Sem::Residual, squares)) == near(mdc.at("from_residual_mean_square")));
        CHECK(mdc95(semOf(Sem::WithinTarget, squares)) ==
              near(mdc.at("from_within_targets_mean_square")));
        if (given.at("expect").contains("sd_of_differences")) {
            // Of two markings the residual's root is the typical error, SD of differences / sqrt 2.
            const auto pairs = agreementOf(columnOf(scores, 1), columnOf(scores, 0)).value();
            const auto& expect = given.at("expect");
            CHECK(pairs.sd == near(expect.at("sd_of_differences")));
            CHECK(pairs.bias.value == near(expect.at("mean_difference_second_minus_first")));
            CHECK(pairs.typicalError == near(sem.at("from_residual_mean_square")));
            CHECK(pairs.withinTargetSd == near(expect.at("dahlberg_error")));
        }
    }
}

TEST_CASE("limits of agreement are those of the peak flow meters of 1986", "[compare][outside]")
{
    const auto data = referenceJson("reliability.json");
    const auto& given = data.at("limits_of_agreement_cases").at(0);
    const auto& expect = given.at("expect");
    const auto a = given.at("a").get<std::vector<double>>();
    const auto b = given.at("b").get<std::vector<double>>();
    const auto usual = agreementOf(a, b).value();
    checkInterval(usual.bias, expect.at("bias_a_minus_b"), expect.at("bias_ci95")[0],
                  expect.at("bias_ci95")[1]);
    checkInterval(usual.lowerLimit, expect.at("limits_196")[0],
                  expect.at("ci95_lower_limit_196")[0], expect.at("ci95_lower_limit_196")[1]);
    checkInterval(usual.upperLimit, expect.at("limits_196")[1],
                  expect.at("ci95_upper_limit_196")[0], expect.at("ci95_upper_limit_196")[1]);
    const auto paper = agreementOf(a, b, limitsOfPaper).value();
    checkInterval(paper.lowerLimit, expect.at("limits_2")[0], expect.at("ci95_lower_limit_2")[0],
                  expect.at("ci95_lower_limit_2")[1]);
    checkInterval(paper.upperLimit, expect.at("limits_2")[1], expect.at("ci95_upper_limit_2")[0],
                  expect.at("ci95_upper_limit_2")[1]);
    // The paper rounds the SD to 38.8 before it doubles it: -79.7 and 75.5 within 0.1.
    CHECK(paper.lowerLimit.value == Approx(-79.7).margin(0.1));
    CHECK(paper.upperLimit.value == Approx(75.5).margin(0.1));
}

TEST_CASE("repeats of one meter have the coefficients of 1986", "[compare][outside]")
{
    const auto data = referenceJson("reliability.json");
    for (const auto& given : data.at("repeatability_cases")) {
        INFO(given.at("id"));
        const auto& expect = given.at("expect");
        const auto pairs = agreementOf(given.at("first").get<std::vector<double>>(),
                                       given.at("second").get<std::vector<double>>())
                               .value();
        CHECK(pairs.sdAboutZero == near(expect.at("sd_about_zero_sqrt_mean_square_difference")));
        CHECK(pairs.sd == near(expect.at("sd_about_mean")));
        CHECK(pairs.withinTargetSd == near(expect.at("within_subject_sd")));
        CHECK(mdc95(pairs.withinTargetSd) == near(expect.at("coefficient_196_sqrt2_sw")));
        CHECK(2.0 * pairs.sdAboutZero ==
              Approx(given.at("published_rounded").at("repeatability_coefficient").get<double>())
                  .margin(0.1));
    }
}

TEST_CASE("scores that cannot be set against each other are refused or have no correlation",
          "[compare]")
{
    CHECK_FALSE(meanSquaresOf({{1.0, 2.0}}));
    CHECK_FALSE(meanSquaresOf({{1.0}, {2.0}}));
    const auto ragged = meanSquaresOf({{1.0, 2.0}, {2.0}});
    REQUIRE_FALSE(ragged);
    CHECK_THAT(ragged.error().sentence, containing("Target 2"));
    CHECK_FALSE(meanSquaresOf({{1.0, 2.0}, {2.0, std::nan("")}}));
    CHECK_FALSE(agreementOf({1.0, 2.0}, {1.0, 2.0}));
    CHECK_FALSE(agreementOf({1.0, 2.0, std::nan("")}, {1.0, 2.0, 3.0}));
    for (const auto& same : {Scores{{4.0, 4.0}, {5.0, 5.0}}, Scores{{4.0, 4.0}, {4.0, 4.0}}}) {
        const auto squares = meanSquaresOf(same).value();
        for (const auto kind : everyIcc) {
            CHECK_FALSE(iccOf(kind, squares));
        }
        CHECK(std::isfinite(semOf(Sem::FromIcc21, squares)));
    }
}
