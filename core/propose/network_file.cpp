// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/network_file.hpp"

#include "core/files/checksum.hpp"
#include "core/whole_file.hpp"

namespace latemile {

namespace {

const std::string insteadOfProposals =
    " Landmarks can be placed by hand as ever; install Latemile again to have proposals.";

} // namespace

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
    const auto found = sha256Of(*bytes);
    if (found != poseNetworkSha256) {
        return fail(Error::Kind::Damaged,
                    "Proposals are off: the pose network " + file.string() +
                        " is damaged or of another version." + insteadOfProposals,
                    "SHA-256 is " + found + ", wanted " + poseNetworkSha256);
    }
    return bytes;
}

} // namespace latemile
