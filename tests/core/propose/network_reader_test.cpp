// SPDX-License-Identifier: GPL-3.0-or-later
// The reader of network files with the checksum left out: whatever the bytes, it ends with a
// network or an Error. Run under the sanitizers this shows that nothing outside the file is read.
#include "core/propose/flat_table.hpp"
#include "core/propose/network_file.hpp"
#include "core/propose/pose_network.hpp"
#include "tests/catch.hpp"
#include "tests/core/propose/pictures.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr int changedFiles = 4; // a network takes seconds to build there
#else
constexpr int changedFiles = 24;
#endif

const std::string& wholeFile()
{
    static const std::string bytes = bytesOf(resources() / "pose" / poseNetworkName);
    return bytes;
}

void checkDamaged(std::string_view bytes)
{
    const auto network = PoseNetwork::fromBytes(bytes);
    REQUIRE(!network);
    CHECK(network.error().kind == Error::Kind::Damaged);
    CHECK_THAT(network.error().sentence, containing("is damaged"));
    CHECK(!network.error().detail.empty());
}

std::span<const std::uint8_t> bytesIn(const std::vector<std::uint8_t>& list)
{
    return list;
}

} // namespace

TEST_CASE("a network file cut short anywhere is an error", "[propose]")
{
    const auto& whole = wholeFile();
    for (const std::size_t length :
         {std::size_t{0}, std::size_t{3}, std::size_t{7}, std::size_t{8}, std::size_t{40},
          std::size_t{4096}, whole.size() / 2, whole.size() - 100000, whole.size() - 5000,
          whole.size() - 1000}) {
        CAPTURE(length);
        checkDamaged(std::string_view(whole).substr(0, length));
    }
}

TEST_CASE("what is no network file is an error", "[propose]")
{
    checkDamaged("a clip, perhaps, but no network");
    checkDamaged(std::string(100000, '\0'));
    checkDamaged(std::string(100000, '\xff'));
    auto other = wholeFile().substr(0, 64);
    other[7] = '9'; // another file version in the mark "TFL3"
    checkDamaged(other);
}

TEST_CASE("a network file with bytes changed gives an error or a network, never a crash",
          "[propose]")
{
    // The tables lie at the ends of the file, the weights between them.
    constexpr std::size_t tables = 60000;
    unsigned state = 7;
    const auto next = [&state] {
        state = state * 1664525U + 1013904223U; // Numerical Recipes' linear congruence
        return state >> 8U;
    };
    int refused = 0;
    for (int k = 0; k < changedFiles; ++k) {
        auto bytes = wholeFile();
        for (int change = 0; change < 8; ++change) {
            const auto place = next() % tables;
            const auto at = k % 2 == 0 ? place : bytes.size() - 1 - place;
            bytes[at] = static_cast<char>(bytes[at] ^ static_cast<char>(1U << (next() % 8)));
        }
        const auto network = PoseNetwork::fromBytes(bytes);
        refused += network ? 0 : 1;
        if (!network) {
            CHECK(network.error().kind == Error::Kind::Damaged);
        }
    }
    CHECK(refused > 0); // the changes did reach what is read
}

TEST_CASE("a table reads only what lies inside the file", "[propose]")
{
    // The root stands at 12, its layout 8 bytes before it: 8 bytes long, field 0 at 4 bytes into
    // the table, field 1 not stored. Field 0 holds 42.
    std::vector<std::uint8_t> file{12, 0, 0, 0, 8, 0, 8, 0, 4, 0, 0, 0, 8, 0, 0, 0, 42, 0, 0, 0};
    const FlatBytes good(bytesIn(file));
    CHECK(FlatTable::rootOf(good).scalar<std::int32_t>(0) == 42);
    CHECK(FlatTable::rootOf(good).scalar<std::int32_t>(7) == 0); // not stored: its default
    SECTION("a layout before the file")
    {
        file[12] = 200;
        CHECK_THROWS_AS(FlatTable::rootOf(FlatBytes(bytesIn(file))).scalar<std::int32_t>(0),
                        NetworkFault);
    }
    SECTION("a layout far behind it")
    {
        file[15] = 0x80;
        CHECK_THROWS_AS(FlatTable::rootOf(FlatBytes(bytesIn(file))).scalar<std::int32_t>(0),
                        NetworkFault);
    }
    SECTION("a field beyond the end")
    {
        file[8] = 6;
        CHECK_THROWS_AS(FlatTable::rootOf(FlatBytes(bytesIn(file))).scalar<std::int32_t>(0),
                        NetworkFault);
    }
    SECTION("a vector longer than the file")
    {
        const auto root = FlatTable::rootOf(good); // field 0 taken for an offset: 42 is outside
        CHECK_THROWS_AS(root.integers(0), NetworkFault);
        CHECK_THROWS_AS(root.tables(0), NetworkFault);
        CHECK_THROWS_AS(root.text(0), NetworkFault);
    }
}
