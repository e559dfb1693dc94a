// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outcome.hpp"

#include "tests/catch.hpp"

using namespace latemile;

namespace {

Outcome<int> halved(int value)
{
    if (value % 2 != 0) {
        return fail(Error::Kind::Inconsistent, "The number is odd.");
    }
    return value / 2;
}

Outcome<int> quartered(int value)
{
    ASSIGN_OR_RETURN(const int half, halved(value));
    RETURN_IF_ERROR(halved(half));
    return half / 2;
}

} // namespace

TEST_CASE("the first error of a chain is the one returned, unchanged", "[outcome]")
{
    CHECK(quartered(12) == 3);
    CHECK(quartered(3).error().sentence == "The number is odd.");
    CHECK(quartered(6).error().kind == Error::Kind::Inconsistent);
}
