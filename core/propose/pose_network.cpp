// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/pose_network.hpp"

#include "core/propose/network_file.hpp"
#include "core/propose/network_layers.hpp"

#include <array>
#include <cassert>

namespace latemile {

namespace {

/// Names of the network's outputs in the file: points, presence, heat maps. Its fourth draws the
/// person's outline and is left out.
const std::vector<std::string> outputNames{"Identity", "Identity_1", "Identity_3"};

tl::unexpected<Error> damaged(const std::exception& fault)
{
    return fail(Error::Kind::Damaged,
                std::string("Proposals are off: the pose network ") + poseNetworkName +
                    " is damaged. Install Latemile again.",
                fault.what());
}

std::vector<float> valuesOf(const cv::Mat& output, std::size_t count)
{
    if (output.total() != count || output.type() != CV_32F || !output.isContinuous()) {
        throw NetworkFault("an output of another size");
    }
    const auto* first = output.ptr<float>();
    return {first, first + count};
}

NetworkAnswer answerFrom(const std::vector<cv::Mat>& outputs)
{
    constexpr std::size_t points = NetworkAnswer::points;
    constexpr std::size_t cells = NetworkAnswer::cells;
    return {.landmarks = valuesOf(outputs.at(0), points * NetworkAnswer::values),
            .presence = valuesOf(outputs.at(1), 1).front(),
            .heat = valuesOf(outputs.at(2), points * cells * cells)};
}

} // namespace

struct PoseNetwork::Inside {
    cv::dnn::Net net;
};

PoseNetwork::PoseNetwork(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
PoseNetwork::PoseNetwork(PoseNetwork&&) noexcept = default;
PoseNetwork& PoseNetwork::operator=(PoseNetwork&&) noexcept = default;
PoseNetwork::~PoseNetwork() = default;

Outcome<PoseNetwork> PoseNetwork::open(const std::filesystem::path& resources)
{
    ASSIGN_OR_RETURN(const auto bytes, readPoseNetwork(resources));
    return fromBytes(bytes);
}

Outcome<PoseNetwork> PoseNetwork::fromBytes(std::string_view bytes)
{
    try {
        const FlatBytes file({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
        const NetworkGraph graph(file);
        auto inside = std::make_unique<Inside>();
        inside->net = networkFrom(graph, outputNames);
        return PoseNetwork(std::move(inside));
    } catch (const std::exception& fault) {
        return damaged(fault);
    }
}

Outcome<NetworkAnswer> PoseNetwork::answer(std::span<const float> input)
{
    constexpr std::array sizes{1, 3, cropPixels, cropPixels};
    assert(input.size() == std::size_t{3} * cropPixels * cropPixels);
    try {
        // OpenCV asks for pointers to what it does not change.
        const cv::Mat blob(4, sizes.data(), CV_32F, const_cast<float*>(input.data()));
        m_inside->net.setInput(blob);
        std::vector<cv::Mat> outputs;
        m_inside->net.forward(outputs, outputNames);
        return answerFrom(outputs);
    } catch (const std::exception& fault) {
        return damaged(fault);
    }
}

Outcome<BodyPoints> PoseNetwork::find(const Picture& picture, const Crop& crop)
{
    ASSIGN_OR_RETURN(const auto found, answer(networkInput(picture, crop)));
    return bodyPointsFrom(found, crop);
}

} // namespace latemile
