// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/propose/flat_table.hpp"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace latemile {

/// The operations the pose network is made of, by their numbers in TensorFlow Lite's schema.
enum class NetworkOp {
    Add = 0,
    Convolution = 3,
    DepthwiseConvolution = 4,
    Dequantize = 6,
    Sigmoid = 14,
    MaxPool = 17,
    Reshape = 22,
    ResizeBilinear = 23,
    Pad = 34
};

/// One operation: what it reads and makes, as numbers of tensors.
struct NetworkNode {
    NetworkOp op{};
    std::vector<int> inputs;
    int output{};
    FlatTable options; ///< of the operation's own kind
};

/// Values stored in the file: weights (16-bit floats widened) or whole numbers.
struct NetworkConstant {
    std::vector<int> shape;
    std::vector<float> floats;
    std::vector<int> integers;
};

/// A .tflite file as the graph it describes. Shapes are (1, height, width, channels). Any access
/// that the bytes do not bear out is a NetworkFault.
class NetworkGraph {
public:
    explicit NetworkGraph(const FlatBytes& bytes); ///< which must outlive it

    /// The operations that lead to the outputs named, in an order that can be run; the rest of the
    /// file (drawing the outline of the person) is left out.
    [[nodiscard]] std::vector<NetworkNode> nodesFor(const std::vector<std::string>& outputs) const;
    [[nodiscard]] int input() const { return m_input; }
    [[nodiscard]] int outputNamed(const std::string& name) const;
    [[nodiscard]] const std::vector<int>& shape(int tensor) const;
    [[nodiscard]] bool isConstant(int tensor) const;
    [[nodiscard]] NetworkConstant constant(int tensor) const;

private:
    [[nodiscard]] std::span<const std::uint8_t> stored(int tensor) const;
    [[nodiscard]] const NetworkNode* maker(int tensor) const;
    [[nodiscard]] std::set<int> neededFor(const std::vector<std::string>& outputs) const;

    std::vector<FlatTable> m_buffers;
    std::vector<FlatTable> m_tensors;
    std::vector<std::vector<int>> m_shapes;
    std::vector<NetworkNode> m_nodes;
    std::map<int, std::size_t> m_makers; ///< tensor -> place in m_nodes
    std::vector<int> m_outputs;
    int m_input{};
};

} // namespace latemile
