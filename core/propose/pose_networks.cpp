// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/pose_networks.hpp"

namespace latemile {

Outcome<PoseNetwork*> PoseNetworks::of(std::size_t worker)
{
    {
        const std::scoped_lock lock(m_mutex);
        if (const auto found = m_open.find(worker); found != m_open.end()) {
            return found->second.get();
        }
    }
    ASSIGN_OR_RETURN(auto network, PoseNetwork::open(m_resources)); // others open theirs meanwhile
    const std::scoped_lock lock(m_mutex);
    auto& own = m_open[worker];
    own = std::make_unique<PoseNetwork>(std::move(network));
    return own.get();
}

} // namespace latemile
