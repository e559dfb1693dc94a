// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/room.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

namespace latemile {

void Room::Unmapped::operator()(std::uint8_t* memory) const
{
    ::munmap(memory, size);
}

std::optional<Room> Room::make(std::size_t bytes)
{
    Descriptor made(::memfd_create("latemile-picture", MFD_CLOEXEC | MFD_ALLOW_SEALING));
    constexpr int allSeals = F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_SEAL;
    if (!made.isOpen() || ::ftruncate(made.number(), static_cast<off_t>(bytes)) != 0 ||
        ::fcntl(made.number(), F_ADD_SEALS, allSeals) != 0) {
        return std::nullopt;
    }
    auto* memory = ::mmap(nullptr, bytes, PROT_READ, MAP_SHARED, made.number(), 0);
    if (memory == MAP_FAILED) {
        return std::nullopt;
    }
    return Room(std::move(made), Mapped(static_cast<std::uint8_t*>(memory), Unmapped{bytes}));
}

std::optional<Room> Room::join(Descriptor made, std::size_t bytes)
{
    auto* memory = ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_SHARED, made.number(), 0);
    if (memory == MAP_FAILED) {
        return std::nullopt;
    }
    return Room({}, Mapped(static_cast<std::uint8_t*>(memory), Unmapped{bytes}));
}

} // namespace latemile
