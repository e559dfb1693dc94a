// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/network_file.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("the network that is shipped is the one whose checksum is known", "[propose]")
{
    const auto bytes = readPoseNetwork(resources());
    REQUIRE(bytes);
    CHECK(bytes->size() == 27709200); // PROVENANCE.md
}

TEST_CASE("without the network the sentence says what is off and what still works", "[propose]")
{
    const ScratchFolder folder;
    const auto none = readPoseNetwork(folder.path());
    REQUIRE(!none);
    CHECK(none.error().kind == Error::Kind::NotFound);
    CHECK_THAT(none.error().sentence, containing("is missing"));
    CHECK_THAT(none.error().sentence, containing("placed by hand"));
}

TEST_CASE("a network with one byte changed, cut short or empty is refused", "[propose]")
{
    const ScratchFolder folder;
    auto bytes = bytesOf(resources() / "pose" / poseNetworkName);
    SECTION("one byte changed")
    {
        bytes[20000000] = static_cast<char>(bytes[20000000] ^ 1);
    }
    SECTION("cut short")
    {
        bytes.resize(bytes.size() / 2);
    }
    SECTION("empty")
    {
        bytes.clear();
    }
    (void)folder.file(std::string("pose/") + poseNetworkName, bytes);
    const auto refused = readPoseNetwork(folder.path());
    REQUIRE(!refused);
    CHECK(refused.error().kind == Error::Kind::Damaged);
    CHECK_THAT(refused.error().sentence, containing("damaged or of another version"));
    CHECK_THAT(refused.error().sentence, containing((folder / "pose").string()));
}
