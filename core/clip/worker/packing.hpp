// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace latemile {

template <class T>
concept Packable = std::is_arithmetic_v<T> || std::is_enum_v<T>;

/// Numbers and texts one behind the other, in this machine's own order of bytes, since both ends
/// are the same program. Flat on purpose: nothing nests, so that reading it cannot run away.
class Packing {
public:
    template <Packable T>
    Packing& add(T number)
    {
        return addBytes(&number, sizeof number);
    }
    Packing& add(std::string_view text)
    {
        add(static_cast<std::uint64_t>(text.size()));
        return addBytes(text.data(), text.size());
    }
    template <Packable T>
    Packing& add(const std::vector<T>& numbers)
    {
        add(static_cast<std::uint64_t>(numbers.size()));
        return addBytes(numbers.data(), numbers.size() * sizeof(T));
    }
    [[nodiscard]] std::span<const std::byte> bytes() const { return m_bytes; }

private:
    Packing& addBytes(const void* from, std::size_t size);
    std::vector<std::byte> m_bytes;
};

/// Takes out what Packing put in, of bytes that nobody vouches for: what is not there, too long or
/// no number of its type comes out as zero or empty, and the whole is known to be bad.
class Unpacking {
public:
    explicit Unpacking(std::span<const std::byte> bytes) : m_rest(bytes) {}

    template <Packable T>
    [[nodiscard]] T take()
    {
        static_assert(!std::is_same_v<T, bool>, "a byte of 2 is no bool: take a number");
        T number{};
        if (const auto from = takeBytes(sizeof number); !from.empty()) {
            std::memcpy(&number, from.data(), sizeof number);
        }
        return number;
    }
    [[nodiscard]] bool takeBool() { return take<std::uint8_t>() != 0; }
    [[nodiscard]] std::string takeText(std::size_t longest)
    {
        const auto from = takeBytes(takeCount(longest));
        return {reinterpret_cast<const char*>(from.data()), from.size()};
    }
    template <Packable T>
    [[nodiscard]] std::vector<T> takeNumbers(std::size_t most)
    {
        const auto from = takeBytes(takeCount(most) * sizeof(T));
        std::vector<T> numbers(from.size() / sizeof(T));
        if (!numbers.empty()) {
            std::memcpy(numbers.data(), from.data(), from.size());
        }
        return numbers;
    }
    /// All that was taken was there, and nothing is left over.
    [[nodiscard]] bool isWhole() const { return m_isSound && m_rest.empty(); }

private:
    [[nodiscard]] std::size_t takeCount(std::size_t most)
    {
        const auto count = take<std::uint64_t>();
        m_isSound = m_isSound && count <= most;
        return m_isSound ? static_cast<std::size_t>(count) : 0;
    }
    [[nodiscard]] std::span<const std::byte> takeBytes(std::size_t size)
    {
        m_isSound = m_isSound && size <= m_rest.size();
        const auto taken = m_rest.first(m_isSound ? size : 0);
        m_rest = m_rest.subspan(taken.size());
        return taken;
    }

    std::span<const std::byte> m_rest;
    bool m_isSound = true;
};

} // namespace latemile
