// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/checksum.hpp"
#include "tests/catch.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

TEST_CASE("CRC-32 is the one of gzip and PNG", "[files][outside]")
{
    // The check value of CRC-32/ISO-HDLC in Cook, Catalogue of parametrised CRC algorithms.
    CHECK(crc32Of("123456789") == 0xCBF43926U);
    // The four bytes of an IEND chunk's type; every PNG file (ISO/IEC 15948) ends in this sum.
    CHECK(crc32Of("IEND") == 0xAE426082U);
    CHECK(crc32Of("") == 0U);
}

TEST_CASE("SHA-256 is the one of FIPS 180", "[files][outside]")
{
    // NIST, Cryptographic Standards and Guidelines, SHA-256 example of one block ("abc"), and of
    // two.
    CHECK(sha256Of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256Of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("the sum of a file is that of its bytes", "[files]")
{
    const ScratchFolder folder;
    const std::string bytes(3'000'001, 'x');
    CHECK(sha256OfFile(folder.file("clip.mp4", bytes)).value() == sha256Of(bytes));
    CHECK(sha256OfFile(folder / "none.mp4").error().kind == Error::Kind::NotFound);
}
