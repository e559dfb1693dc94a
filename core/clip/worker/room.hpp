// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/descriptor.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>

namespace latemile {

/// Memory that the program and one worker both see: the worker puts one picture in, the program
/// takes it out. The program makes it and seals its size, so that no worker can pull it away from
/// under the program's feet. What lies in it may change at any time and is trusted by nobody.
class Room {
public:
    /// Nothing where there is no memory.
    [[nodiscard]] static std::optional<Room> make(std::size_t bytes);
    /// The room whose descriptor came from the program.
    [[nodiscard]] static std::optional<Room> join(Descriptor made, std::size_t bytes);

    [[nodiscard]] int descriptor() const { return m_made.number(); }
    [[nodiscard]] std::size_t size() const { return m_memory.get_deleter().size; }
    [[nodiscard]] std::uint8_t* memory() const { return m_memory.get(); }

private:
    struct Unmapped {
        std::size_t size = 0;
        void operator()(std::uint8_t* memory) const;
    };
    using Mapped = std::unique_ptr<std::uint8_t, Unmapped>;

    Room(Descriptor made, Mapped memory) : m_made(std::move(made)), m_memory(std::move(memory)) {}

    Descriptor m_made; ///< the worker's end keeps none
    Mapped m_memory;
};

} // namespace latemile
