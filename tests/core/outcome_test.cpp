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

TEST_CASE("a sentence stays on one line whatever a name in it holds", "[outcome][refusals]")
{
    // A record's zip held a file of the name "sessio\n.json", which broke the sentence in two.
    const std::string name("a\nb\r\x1b[2Jc\x7f\t\0d", 13);
    CHECK(fail(Error::Kind::Damaged, "The file " + name + " is damaged.").value().sentence ==
          "The file a?b??[2Jc???d is damaged.");
    CHECK(fail(Error::Kind::Damaged, "\xC3\x9C"
                                     "bersicht \xE2\x9C\x93")
              .value()
              .sentence == "\xC3\x9C"
                           "bersicht \xE2\x9C\x93");
}
