// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/c3d_parameters.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>

namespace latemile {

namespace {

constexpr int characters = -1;
constexpr int integers = 2;
constexpr int floats = 4;

void addByte(std::string& bytes, std::int64_t value)
{
    bytes += static_cast<char>(static_cast<std::uint8_t>(value & 0xff));
}

} // namespace

void addInt16(std::string& bytes, std::int64_t value)
{
    addByte(bytes, value);
    addByte(bytes, value >> 8);
}

void addFloat32(std::string& bytes, double value)
{
    const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(value));
    addInt16(bytes, bits & 0xffff);
    addInt16(bytes, bits >> 16);
}

void C3dParameters::group(std::string_view name)
{
    ++m_group;
    addByte(m_bytes, std::ssize(name));
    addByte(m_bytes, -m_group);
    m_bytes += name;
    addInt16(m_bytes, 3); // to the next entry: this word and the length of no description
    addByte(m_bytes, 0);
}

void C3dParameters::parameter(std::string_view name, int type,
                              const std::vector<std::size_t>& dimensions, std::string_view data)
{
    addByte(m_bytes, std::ssize(name));
    addByte(m_bytes, m_group);
    m_bytes += name;
    addInt16(m_bytes, 2 + 1 + 1 + std::ssize(dimensions) + std::ssize(data) + 1);
    addByte(m_bytes, type);
    addByte(m_bytes, std::ssize(dimensions));
    for (const auto dimension : dimensions) {
        addByte(m_bytes, static_cast<std::int64_t>(dimension));
    }
    m_bytes += data;
    addByte(m_bytes, 0); // no description
}

void C3dParameters::int16(std::string_view name, std::int64_t value)
{
    std::string data;
    addInt16(data, value);
    parameter(name, integers, {}, data);
}

void C3dParameters::int16s(std::string_view name, const std::vector<std::int64_t>& values)
{
    std::string data;
    for (const auto value : values) {
        addInt16(data, value);
    }
    parameter(name, integers, {values.size()}, data);
}

void C3dParameters::float32(std::string_view name, double value)
{
    std::string data;
    addFloat32(data, value);
    parameter(name, floats, {}, data);
}

void C3dParameters::float32Pairs(std::string_view name, const std::vector<double>& values)
{
    std::string data;
    for (const auto value : values) {
        addFloat32(data, value);
    }
    parameter(name, floats, {2, values.size() / 2}, data);
}

void C3dParameters::texts(std::string_view name, const std::vector<std::string>& values)
{
    std::size_t longest = 1;
    for (const auto& value : values) {
        longest = std::max(longest, value.size());
    }
    std::string data;
    for (const auto& value : values) {
        data += value + std::string(longest - value.size(), ' ');
    }
    parameter(name, characters, {longest, values.size()}, data);
}

void C3dParameters::text(std::string_view name, std::string_view value)
{
    parameter(name, characters, {value.size()}, value);
}

int C3dParameters::blocks() const
{
    constexpr std::size_t ends = 4 + 1; // the section's own header, and the name of no length
    return static_cast<int>((m_bytes.size() + ends + c3dBlock - 1) / c3dBlock);
}

std::string C3dParameters::closed() const
{
    constexpr int first = 1;
    constexpr int keyOfFormat = 0x50;
    constexpr int intel = 84;
    std::string bytes;
    addByte(bytes, first);
    addByte(bytes, keyOfFormat);
    addByte(bytes, blocks());
    addByte(bytes, intel);
    bytes += m_bytes;
    bytes.resize(static_cast<std::size_t>(blocks()) * c3dBlock, '\0');
    return bytes;
}

} // namespace latemile
