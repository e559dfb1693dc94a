// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/network_graph.hpp"

#include <opencv2/dnn.hpp>

namespace latemile {

/// The part of the graph that leads to `outputs`, layer by layer as a network of OpenCV's, which
/// can then be asked for those outputs by name. It runs on the processor. An operation, a shape or
/// an option that the pose network does not have is a NetworkFault, one that OpenCV refuses a
/// cv::Exception.
[[nodiscard]] cv::dnn::Net networkFrom(const NetworkGraph& graph,
                                       const std::vector<std::string>& outputs);

} // namespace latemile
