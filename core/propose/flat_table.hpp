// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <cstring>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace latemile {

/// Thrown by the readers of a network's file where its bytes make no sense, as OpenCV throws where
/// its layers make none: both are caught in pose_network.cpp and leave it as an Error.
struct NetworkFault : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// The bytes of a FlatBuffers file (little endian, as the machines we run on). No byte outside is
/// ever read: a place beyond the end is a NetworkFault.
class FlatBytes {
public:
    explicit FlatBytes(std::span<const std::uint8_t> bytes) : m_bytes(bytes) {}

    template <class T>
    [[nodiscard]] T at(std::size_t place) const
    {
        T value{};
        std::memcpy(&value, range(place, sizeof(T)).data(), sizeof(T));
        return value;
    }
    [[nodiscard]] std::span<const std::uint8_t> range(std::size_t place, std::size_t length) const;

private:
    std::span<const std::uint8_t> m_bytes;
};

/// One table of the file: its fields are numbered as in the schema (TensorFlow Lite's schema.fbs,
/// version 3). A field that is not stored reads as its default: 0, an empty vector, an empty table.
/// Copies look at the same bytes, which must outlive them.
class FlatTable {
public:
    FlatTable() = default;
    static FlatTable rootOf(const FlatBytes& bytes);

    [[nodiscard]] bool isEmpty() const { return m_bytes == nullptr; }
    template <class T>
    [[nodiscard]] T scalar(int field) const
    {
        const auto place = placeOf(field);
        return place == 0 ? T{} : m_bytes->at<T>(place);
    }
    [[nodiscard]] FlatTable table(int field) const;
    [[nodiscard]] std::vector<FlatTable> tables(int field) const;
    [[nodiscard]] std::vector<int> integers(int field) const; ///< a vector of int32
    [[nodiscard]] std::span<const std::uint8_t> bytes(int field) const;
    [[nodiscard]] std::string text(int field) const;

private:
    FlatTable(const FlatBytes& bytes, std::size_t place) : m_bytes(&bytes), m_place(place) {}
    [[nodiscard]] std::size_t placeOf(int field) const;  ///< 0: not stored
    [[nodiscard]] std::size_t targetOf(int field) const; ///< what the field points at; 0: nothing

    const FlatBytes* m_bytes{};
    std::size_t m_place{};
};

} // namespace latemile
