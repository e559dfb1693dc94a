// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/network_file.hpp"

#include "core/whole_file.hpp"

extern "C" {
#include <libavutil/hash.h>
}

#include <array>
#include <memory>

namespace latemile {

namespace {

struct FreeHash {
    void operator()(AVHashContext* context) const { av_hash_freep(&context); }
};

const std::string insteadOfProposals =
    " Landmarks can be placed by hand as ever; install Latemile again to have proposals.";

} // namespace

std::string sha256(std::string_view bytes)
{
    AVHashContext* raw = nullptr;
    if (av_hash_alloc(&raw, "SHA256") < 0) {
        return {}; // out of memory: equal to no checksum
    }
    const std::unique_ptr<AVHashContext, FreeHash> context(raw);
    av_hash_init(raw);
    av_hash_update(raw, reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    std::array<std::uint8_t, 2 * AV_HASH_MAX_SIZE + 4> text{};
    av_hash_final_hex(raw, text.data(), static_cast<int>(text.size()));
    return reinterpret_cast<const char*>(text.data());
}

Outcome<std::string> readPoseNetwork(const std::filesystem::path& resources)
{
    const auto file = resources / "pose" / poseNetworkName;
    auto bytes = readWholeFile(file);
    if (!bytes) {
        return fail(bytes.error().kind,
                    "Proposals are off: the pose network " + file.string() +
                        (bytes.error().kind == Error::Kind::NotFound ? " is missing."
                                                                     : " could not be read.") +
                        insteadOfProposals,
                    bytes.error().sentence);
    }
    const auto found = sha256(*bytes);
    if (found != poseNetworkSha256) {
        return fail(Error::Kind::Damaged,
                    "Proposals are off: the pose network " + file.string() +
                        " is damaged or of another version." + insteadOfProposals,
                    "SHA-256 is " + found + ", wanted " + poseNetworkSha256);
    }
    return bytes;
}

} // namespace latemile
