// SPDX-License-Identifier: GPL-3.0-or-later
// Smoothing and bridging against SciPy 1.10.1 (filtfilt, PchipInterpolator) and the textbook's
// coefficients (Winter, Biomechanics and Motor Control of Human Movement, from memory in the file;
// SciPy agrees to five digits). The data files say how each value was obtained.
#include "core/follow/gap_fill.hpp"
#include "core/follow/low_pass.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using latemile::testing::referenceFile;
using latemile::testing::referenceJson;

TEST_CASE("Butterworth coefficients are SciPy's, plain and corrected on the tangent",
          "[follow][outside]")
{
    const auto table = CsvTable::read(referenceFile("butterworth_coefficients.csv")).value();
    int checked = 0;
    for (const auto& row : table.rows()) {
        const auto correction = row.text("correction");
        if (correction == "corrected_in_hz") {
            continue; // a correction of another kind, which is exact only nearly
        }
        const auto filter =
            butterworth(row.number("fs_hz").value(), row.number("cutoff_hz").value(),
                        correction == "as_given" ? 1 : 2);
        CAPTURE(row.text("fs_hz"), row.text("cutoff_hz"), correction);
        CHECK(filter.b0 == Approx(row.number("b0").value()).epsilon(1e-9));
        CHECK(filter.b1 == Approx(row.number("b1").value()).epsilon(1e-9));
        CHECK(filter.b2 == Approx(row.number("b2").value()).epsilon(1e-9));
        CHECK(filter.a1 == Approx(row.number("a1").value()).epsilon(1e-9));
        CHECK(filter.a2 == Approx(row.number("a2").value()).epsilon(1e-9));
        ++checked;
    }
    CHECK(checked >= 10);
}

TEST_CASE("the correction for several passes is the textbook's", "[follow][outside]")
{
    const auto document = referenceJson("filter.json");
    for (const auto& [passes, factor] : document["correction_factor_by_passes"].items()) {
        CHECK(cutoffCorrection(std::stoi(passes)) == Approx(factor.get<double>()).margin(1e-10));
    }
}

TEST_CASE("zero-lag smoothing gives what filtfilt gives", "[follow][outside]")
{
    const auto document = referenceJson("filter.json");
    for (const auto& example : document["cases"]) {
        const auto samples = example["x"].get<std::vector<double>>();
        for (const auto& kind : {"as_given", "corrected_on_tan"}) {
            const auto& expected = example["expect"][kind];
            const auto b = expected["b"].get<std::vector<double>>();
            const auto a = expected["a"].get<std::vector<double>>();
            const auto ours = zeroLag(samples, SecondOrderFilter{b[0], b[1], b[2], a[1], a[2]});
            const auto theirs = expected["two_passes_odd_extension_9"].get<std::vector<double>>();
            REQUIRE(ours.size() == theirs.size());
            CAPTURE(example["id"], kind);
            for (std::size_t i = 0; i < ours.size(); ++i) {
                CHECK(ours[i] == Approx(theirs[i]).margin(1e-8));
            }
        }
        const auto whole = zeroLag(samples, example["fs_hz"], example["cutoff_hz"]);
        const auto expected = example["expect"]["corrected_on_tan"]["two_passes_odd_extension_9"]
                                  .get<std::vector<double>>();
        CHECK(whole[samples.size() / 2] == Approx(expected[samples.size() / 2]).margin(1e-8));
    }
}

TEST_CASE("bridging gives what SciPy's and Boost's shape-preserving cubic give",
          "[follow][outside]")
{
    const auto document = referenceJson("gap_fill.json");
    for (const auto& example : document["cases"]) {
        const auto ours = shapePreserving(example["knots_frame"].get<std::vector<double>>(),
                                          example["knots_value"].get<std::vector<double>>(),
                                          example["query_frame"].get<std::vector<double>>());
        const auto theirs = example["expect"]["pchip_one_sided_ends"].get<std::vector<double>>();
        REQUIRE(ours.size() == theirs.size());
        CAPTURE(example["id"]);
        for (std::size_t i = 0; i < ours.size(); ++i) {
            CHECK(ours[i] == Approx(theirs[i]).margin(1e-7));
        }
    }
}
