// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/retimed.hpp"
#include "tests/catch.hpp"

using namespace latemile;

TEST_CASE("a clip filmed eight times faster than thought has events eight times as early",
          "[marks]")
{
    // By hand: 240 frames a real second written as 30 a second of file; 8.4 s become 1.05 s.
    const std::vector<Stance> stances{
        {Foot::Left, Seconds{8.4}, Seconds{10.4}, Origin::Placed, Seconds{0.08}},
        {Foot::Right, Seconds{11.2}, std::nullopt, Origin::Placed, std::nullopt}};
    const auto real = retimed(stances, 30.0, 240.0);
    CHECK(real[0].contact.count() == Approx(1.05));
    CHECK(real[0].toeOff->count() == Approx(1.3));
    CHECK(real[0].se->count() == Approx(0.01));
    CHECK(real[1].contact.count() == Approx(1.4));
    CHECK_FALSE(real[1].toeOff);
}
