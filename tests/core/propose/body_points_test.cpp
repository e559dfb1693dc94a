// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/body_points.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/belt_runner.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("the trunk is from mid hip to mid shoulder, and never nothing", "[propose]")
{
    CHECK(trunkLength(BeltRunner(5).bodies) == 100.0);
    CHECK(trunkLength(std::vector<BodyPoints>(3)) == 1.0);
    CHECK(trunkLength({}) == 1.0);
}
