// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/network_layers.hpp"

namespace latemile {

namespace {

using cv::dnn::DictValue;
using cv::dnn::LayerParams;

// Field numbers of the options in TensorFlow Lite's schema.fbs, version 3.
namespace convolution { // of both kinds; the activation follows the depth multiplier in the second
constexpr int padding = 0, strideWidth = 1, strideHeight = 2, activation = 3, depthActivation = 4;
}
namespace pool {
constexpr int padding = 0, strideWidth = 1, strideHeight = 2, width = 3, height = 4;
}
namespace resize {
constexpr int alignCorners = 2, halfPixelCentres = 3;
}
constexpr int addActivation = 0;
enum Activation { none = 0, relu = 1, relu6 = 3 };

void need(bool holds, const char* what)
{
    if (!holds) {
        throw NetworkFault(what);
    }
}

/// Adds layers to a network, keeping which of them makes which tensor.
class Layers {
public:
    Layers(const NetworkGraph& graph, const std::vector<std::string>& outputs) : m_graph(graph)
    {
        for (const auto& name : outputs) {
            m_names[graph.outputNamed(name)] = name;
        }
        m_made[graph.input()] = 0;
        m_net.setInputsNames({"image"});
    }
    void add(const NetworkNode& node);
    cv::dnn::Net take() { return std::move(m_net); }

private:
    void addConvolution(const NetworkNode& node);
    void addSum(const NetworkNode& node);
    void addPad(const NetworkNode& node);
    void addMaxPool(const NetworkNode& node);
    void addResize(const NetworkNode& node);
    void addReshape(const NetworkNode& node);

    [[nodiscard]] int inputOf(const NetworkNode& node, std::size_t place) const
    {
        need(place < node.inputs.size(), "an operation without an input");
        return node.inputs[place];
    }
    /// The layer that makes that input.
    [[nodiscard]] int layerOf(const NetworkNode& node, std::size_t place) const
    {
        const auto found = m_made.find(inputOf(node, place));
        need(found != m_made.end(), "an operation before its input");
        return found->second;
    }
    [[nodiscard]] std::string nameOf(const NetworkNode& node) const
    {
        const auto found = m_names.find(node.output);
        return found == m_names.end() ? "t" + std::to_string(node.output) : found->second;
    }
    int addLayer(const std::string& name, const char* type, LayerParams options,
                 const std::vector<int>& sources)
    {
        options.name = name;
        options.type = type;
        const int layer = m_net.addLayer(name, type, options);
        for (std::size_t k = 0; k < sources.size(); ++k) {
            m_net.connect(sources[k], 0, layer, static_cast<int>(k));
        }
        return layer;
    }
    /// Adds the layer and behind it the activation that TensorFlow Lite keeps in the same node.
    void addActivated(const NetworkNode& node, int activation, const char* type,
                      const LayerParams& options, const std::vector<int>& sources)
    {
        const auto name = nameOf(node);
        if (activation == none) {
            m_made[node.output] = addLayer(name, type, options, sources);
            return;
        }
        need(activation == relu || activation == relu6, "an activation the network does not have");
        const int before = addLayer(name + "/linear", type, options, sources);
        LayerParams bounds;
        if (activation == relu6) {
            bounds.set("min_value", 0.0F);
            bounds.set("max_value", 6.0F);
        }
        m_made[node.output] =
            addLayer(name, activation == relu6 ? "ReLU6" : "ReLU", bounds, {before});
    }

    const NetworkGraph& m_graph;
    std::map<int, std::string> m_names; ///< of the outputs
    std::map<int, int> m_made;          ///< tensor -> layer
    cv::dnn::Net m_net;
};

std::string paddingFrom(std::int8_t stored)
{
    return stored == 0 ? "SAME" : "VALID";
}

/// TensorFlow Lite stores (out, h, w, in), depthwise (1, h, w, channels); OpenCV wants (out, in, h,
/// w), depthwise (channels, 1, h, w).
cv::Mat reordered(const NetworkConstant& weights, bool depthwise)
{
    const int rows = weights.shape[1];
    const int columns = weights.shape[2];
    const int in = depthwise ? 1 : weights.shape[3];
    const int out = depthwise ? weights.shape[3] : weights.shape[0];
    const std::array sizes{out, in, rows, columns};
    cv::Mat target(4, sizes.data(), CV_32F);
    auto* to = target.ptr<float>();
    for (int o = 0; o < out; ++o) {
        for (int i = 0; i < in; ++i) {
            for (int at = 0; at < rows * columns; ++at) {
                const int from = depthwise ? at * out + o : (o * rows * columns + at) * in + i;
                *to++ = weights.floats[static_cast<std::size_t>(from)];
            }
        }
    }
    return target;
}

void Layers::addConvolution(const NetworkNode& node)
{
    const bool depthwise = node.op == NetworkOp::DepthwiseConvolution;
    const auto weights = m_graph.constant(inputOf(node, 1));
    const auto bias = m_graph.constant(inputOf(node, 2));
    const auto& shape = m_graph.shape(inputOf(node, 0));
    need(weights.shape.size() == 4 && !weights.floats.empty() && shape.size() == 4,
         "a convolution of another shape");
    need(!depthwise || (weights.shape[0] == 1 && weights.shape[3] == shape[3]),
         "a depthwise convolution that changes the number of channels");
    need(depthwise || weights.shape[3] == shape[3], "a convolution of other channels");
    const int out = depthwise ? weights.shape[3] : weights.shape[0];
    need(bias.floats.size() == static_cast<std::size_t>(out), "a convolution without its bias");
    const int strideWidth = node.options.scalar<std::int32_t>(convolution::strideWidth);
    const int strideHeight = node.options.scalar<std::int32_t>(convolution::strideHeight);
    need(strideWidth >= 1 && strideHeight >= 1, "a convolution that does not move on");
    LayerParams options;
    options.blobs = {reordered(weights, depthwise), cv::Mat(bias.floats, true).reshape(1, 1)};
    options.set("kernel_h", weights.shape[1]);
    options.set("kernel_w", weights.shape[2]);
    options.set("stride_h", strideHeight);
    options.set("stride_w", strideWidth);
    options.set("num_output", out);
    options.set("group", depthwise ? out : 1);
    options.set("bias_term", true);
    options.set("pad_mode", paddingFrom(node.options.scalar<std::int8_t>(convolution::padding)));
    const int activation = node.options.scalar<std::int8_t>(depthwise ? convolution::depthActivation
                                                                      : convolution::activation);
    addActivated(node, activation, "Convolution", options, {layerOf(node, 0)});
}

void Layers::addSum(const NetworkNode& node)
{
    need(node.inputs.size() == 2, "a sum of more than two");
    LayerParams options;
    options.set("operation", "sum");
    addActivated(node, node.options.scalar<std::int8_t>(addActivation), "Eltwise", options,
                 {layerOf(node, 0), layerOf(node, 1)});
}

void Layers::addPad(const NetworkNode& node)
{
    const auto pads = m_graph.constant(inputOf(node, 1)).integers;
    need(pads.size() == 8, "a padding of another shape");
    // (1, h, w, channels) in pairs -> (1, channels, h, w)
    std::array<int, 8> ordered{pads[0], pads[1], pads[6], pads[7],
                               pads[2], pads[3], pads[4], pads[5]};
    LayerParams options;
    options.set("paddings", DictValue::arrayInt(ordered.data(), 8));
    m_made[node.output] = addLayer(nameOf(node), "Padding", options, {layerOf(node, 0)});
}

void Layers::addMaxPool(const NetworkNode& node)
{
    LayerParams options;
    options.set("pool", "max");
    options.set("stride_w", node.options.scalar<std::int32_t>(pool::strideWidth));
    options.set("stride_h", node.options.scalar<std::int32_t>(pool::strideHeight));
    options.set("kernel_w", node.options.scalar<std::int32_t>(pool::width));
    options.set("kernel_h", node.options.scalar<std::int32_t>(pool::height));
    options.set("pad_mode", paddingFrom(node.options.scalar<std::int8_t>(pool::padding)));
    m_made[node.output] = addLayer(nameOf(node), "Pooling", options, {layerOf(node, 0)});
}

void Layers::addResize(const NetworkNode& node)
{
    const auto& shape = m_graph.shape(node.output);
    need(shape.size() == 4 && shape[1] >= 1 && shape[2] >= 1 && shape[1] <= 1024 &&
             shape[2] <= 1024,
         "a resizing to another shape");
    LayerParams options;
    options.set("interpolation", "bilinear");
    options.set("height", shape[1]);
    options.set("width", shape[2]);
    options.set("align_corners", node.options.scalar<std::uint8_t>(resize::alignCorners) != 0);
    options.set("half_pixel_centers",
                node.options.scalar<std::uint8_t>(resize::halfPixelCentres) != 0);
    m_made[node.output] = addLayer(nameOf(node), "Resize", options, {layerOf(node, 0)});
}

void Layers::addReshape(const NetworkNode& node)
{
    const auto& from = m_graph.shape(inputOf(node, 0));
    const auto& to = m_graph.shape(node.output);
    // One pixel with all its values: the order of channels and places then makes no difference.
    need(from.size() == 4 && from[1] == 1 && from[2] == 1 && !to.empty(),
         "a reshaping of more than one pixel");
    LayerParams options;
    options.set("dim", DictValue::arrayInt(to.data(), static_cast<int>(to.size())));
    m_made[node.output] = addLayer(nameOf(node), "Reshape", options, {layerOf(node, 0)});
}

void Layers::add(const NetworkNode& node)
{
    switch (node.op) {
    case NetworkOp::Convolution:
    case NetworkOp::DepthwiseConvolution:
        return addConvolution(node);
    case NetworkOp::Add:
        return addSum(node);
    case NetworkOp::Pad:
        return addPad(node);
    case NetworkOp::MaxPool:
        return addMaxPool(node);
    case NetworkOp::ResizeBilinear:
        return addResize(node);
    case NetworkOp::Reshape:
        return addReshape(node);
    case NetworkOp::Sigmoid:
        m_made[node.output] = addLayer(nameOf(node), "Sigmoid", {}, {layerOf(node, 0)});
        return;
    case NetworkOp::Dequantize:
        break; // weights only, and those are read as constants
    }
    throw NetworkFault("an operation the network does not have: " +
                       std::to_string(static_cast<int>(node.op)));
}

} // namespace

cv::dnn::Net networkFrom(const NetworkGraph& graph, const std::vector<std::string>& outputs)
{
    Layers layers(graph, outputs);
    for (const auto& node : graph.nodesFor(outputs)) {
        layers.add(node);
    }
    auto net = layers.take();
    net.setPreferableBackend(cv::dnn::DNN_BACKEND_OPENCV);
    net.setPreferableTarget(cv::dnn::DNN_TARGET_CPU);
    return net;
}

} // namespace latemile
