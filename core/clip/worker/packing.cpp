// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/packing.hpp"

namespace latemile {

Packing& Packing::addBytes(const void* from, std::size_t size)
{
    const auto* first = static_cast<const std::byte*>(from);
    m_bytes.insert(m_bytes.end(), first, first + size);
    return *this;
}

} // namespace latemile
