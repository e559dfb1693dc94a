// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/event_speeds.hpp"

#include "core/measures/propagation.hpp"
#include "tests/catch.hpp"

#include <cmath>
#include <vector>

using namespace latemile;

namespace {

double square(double value)
{
    return value * value;
}

constexpr double others = 7.0; ///< variance of events that has nothing to do with the contact

/// As propagation leaves it for a value read at one contact.
Propagated readAtContact(const EventSpeed& speed)
{
    Propagated step;
    step.value = 1.0;
    step.atContact = speed;
    step.detail.contacts = speed.withoutNoise() * speed.own;
    step.common.events = std::sqrt(speed.withoutNoise() * speed.shared);
    step.shares.events = others + step.detail.contacts + square(step.common.events);
    return step;
}

void share(std::vector<Propagated>& steps)
{
    std::vector<Propagated*> all;
    for (auto& step : steps) {
        all.push_back(&step);
    }
    shareEventSpeeds(all);
}

} // namespace

TEST_CASE("steps of a foot have one mean square speed at contact, without the marks' noise",
          "[measures]")
{
    std::vector<Propagated> steps;
    for (const double seen : {100.0, 400.0, 250.0}) {
        steps.push_back(readAtContact({.seen = seen, .noise = 50.0, .own = 2.0, .shared = 0.5}));
    }
    share(steps);
    for (const auto& step : steps) {
        CHECK(step.detail.contacts == Approx(200.0 * 2.0));
        CHECK(square(step.common.events) == Approx(200.0 * 0.5));
        CHECK(step.shares.events == Approx(others + 200.0 * 2.5));
    }
}

TEST_CASE("one mark gone astray does not widen all steps of a foot", "[measures]")
{
    std::vector<Propagated> steps;
    for (const double seen : {100.0, 100.0, 100.0, 100.0, 10000.0}) {
        steps.push_back(readAtContact({.seen = seen, .noise = 0.0, .own = 1.0, .shared = 0.0}));
    }
    share(steps);
    CHECK(steps.front().detail.contacts == Approx((4.0 * 100.0 + 900.0) / 5.0));
}

TEST_CASE("a single step keeps the speed of its own marks", "[measures]")
{
    std::vector<Propagated> steps{
        readAtContact({.seen = 100.0, .noise = 50.0, .own = 2.0, .shared = 0.5})};
    share(steps);
    CHECK(steps.front().detail.contacts == Approx((100.0 - 50.0 * 50.0 / 100.0) * 2.0));
}

TEST_CASE("speeds that drown in the marks' noise add nothing", "[measures]")
{
    std::vector<Propagated> steps{
        readAtContact({.seen = 10.0, .noise = 50.0, .own = 2.0, .shared = 0.5}),
        readAtContact({.seen = 80.0, .noise = 50.0, .own = 2.0, .shared = 0.5})};
    share(steps);
    for (const auto& step : steps) {
        CHECK(step.detail.contacts == 0.0);
        CHECK(step.shares.events == Approx(others));
        CHECK(step.common.events == Approx(0.0).margin(1e-9));
    }
}

TEST_CASE("a value without one speed at contact stays as it is", "[measures]")
{
    std::vector<Propagated> steps{
        readAtContact({.seen = 100.0, .noise = 0.0, .own = 2.0, .shared = 0.5}),
        readAtContact({.seen = 300.0, .noise = 0.0, .own = 2.0, .shared = 0.5}), Propagated{}};
    steps.back().detail.contacts = 3.0;
    steps.back().shares.events = 3.0;
    share(steps);
    CHECK(steps.front().detail.contacts == Approx(400.0));
    CHECK(steps.back().detail.contacts == 3.0);
    CHECK(steps.back().shares.events == 3.0);
}
