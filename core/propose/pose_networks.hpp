// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/pose_network.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <mutex>

namespace latemile {

/// The pose network, once for each thread that looks: opening takes most of a second and 0.2 GB, so
/// that who searches a clip in several goes keeps them until the last.
class PoseNetworks {
public:
    /// `resources` of the program: holds the network's file.
    explicit PoseNetworks(std::filesystem::path resources) : m_resources(std::move(resources)) {}

    /// The one of that worker, opened when it is first asked for; called from any thread. A worker
    /// uses its own alone.
    Outcome<PoseNetwork*> of(std::size_t worker);

private:
    const std::filesystem::path m_resources;
    std::mutex m_mutex; ///< guards the map
    std::map<std::size_t, std::unique_ptr<PoseNetwork>> m_open;
};

} // namespace latemile
