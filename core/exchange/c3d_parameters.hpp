// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace latemile {

/// Bytes in the order C3D's processor type 84 (Intel) wants: least significant first.
void addInt16(std::string& bytes, std::int64_t value); ///< the lower 16 bits
void addFloat32(std::string& bytes, double value);

/// The parameter section of a C3D file: groups of named values, padded to whole blocks of 512
/// bytes. Dimensions are at most 255 each, as the format stores them in a byte.
class C3dParameters {
public:
    void group(std::string_view name); ///< the parameters that follow belong to it
    void int16(std::string_view name, std::int64_t value);
    void int16s(std::string_view name, const std::vector<std::int64_t>& values);
    void float32(std::string_view name, double value);
    /// An array of two numbers each.
    void float32Pairs(std::string_view name, const std::vector<double>& values);
    /// An array of texts of one length, filled up with spaces.
    void texts(std::string_view name, const std::vector<std::string>& values);
    void text(std::string_view name, std::string_view value);

    /// Blocks the section takes once it is closed.
    [[nodiscard]] int blocks() const;
    /// The whole section; `blocks()` times 512 bytes.
    [[nodiscard]] std::string closed() const;

private:
    void parameter(std::string_view name, int type, const std::vector<std::size_t>& dimensions,
                   std::string_view data);

    std::string m_bytes;
    int m_group{};
};

inline constexpr std::size_t c3dBlock = 512;

} // namespace latemile
