// SPDX-License-Identifier: GPL-3.0-or-later
// tests/outside/data/symmetry.csv: left less right over their mean, the symmetry index of Robinson,
// Herzog & Nigg 1987 with its sign turned (sources in symmetry_sources.json).
#include "core/csv.hpp"
#include "core/measures/readings.hpp"
#include "tests/catch.hpp"
#include "tests/outside/reference_data.hpp"

using namespace latemile;
using namespace latemile::testing;

namespace {

/// Left and right steps of so many milliseconds, and contacts of half of that.
MarkedClip limping(double left, double right)
{
    MarkedClip clip;
    clip.conditions.scene.view = View::LeftSide;
    clip.conditions.scene.travel = Travel::Left;
    std::vector<Seconds> times;
    for (int i = 0; i < 2000; ++i) {
        times.push_back(Seconds{0.002 * i});
    }
    clip.index = FrameIndex(times);
    double contact = 0.1;
    for (int n = 0; n < 6; ++n) {
        const double step = (n % 2 == 0 ? left : right) / 1000.0;
        clip.marking.stances.push_back({n % 2 == 0 ? Foot::Left : Foot::Right, Seconds{contact},
                                        Seconds{contact + step / 2.0}, Origin::Placed,
                                        std::nullopt});
        contact += step;
    }
    return clip;
}

} // namespace

TEST_CASE("left against right is the symmetry index with left first", "[measures][outside]")
{
    int checked = 0;
    const auto table = CsvTable::read(referenceFile("symmetry.csv")).value();
    for (const auto& row : table.rows()) {
        INFO(row.text("case"));
        // The index knows no unit: small numbers stand for tens of milliseconds here.
        const double left = row.number("left").value();
        const double unit = left < 5.0 ? 100.0 : left < 50.0 ? 10.0 : 1.0;
        const auto readings =
            readingsOf(limping(unit * left, unit * row.number("right").value())).value();
        const double expected = row.number("left_minus_right_over_mean_percent").value();
        for (const auto& reading : readings.readings) {
            const bool paired =
                reading.measure == "step_asymmetry" || reading.measure == "contact_asymmetry";
            if (paired && reading.value) {
                CHECK(*reading.value == Approx(expected).epsilon(1e-7).margin(1e-9));
                ++checked;
            }
        }
    }
    CHECK(checked >= 4 * 6);
}
