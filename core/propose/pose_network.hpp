// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/propose/body_points.hpp"

#include <filesystem>
#include <memory>
#include <span>
#include <string_view>

namespace latemile {

/// The pose network, ready to look at pictures on this machine's processor: about 0.2 s a picture
/// on one core, 0.2 GB of memory. One thread at a time; several networks may run side by side.
class PoseNetwork {
public:
    /// From the folder of resources, checked by SHA-256; takes about a second. Without the file
    /// there are no proposals and all else works: the Error says so.
    static Outcome<PoseNetwork> open(const std::filesystem::path& resources);
    /// From the bytes of a .tflite file, whatever their checksum. Bytes that describe no such
    /// network are an Error (Damaged).
    static Outcome<PoseNetwork> fromBytes(std::string_view bytes);

    PoseNetwork(PoseNetwork&&) noexcept;
    PoseNetwork& operator=(PoseNetwork&&) noexcept;
    ~PoseNetwork();

    /// The person in that crop of the picture; whether there is one says `presence`.
    Outcome<BodyPoints> find(const Picture& picture, const Crop& crop);
    /// What the network answers to 3 x 256 x 256 values (planes of red, green, blue, 0 to 1).
    Outcome<NetworkAnswer> answer(std::span<const float> input);

private:
    struct Inside;
    explicit PoseNetwork(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
