// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/propose/network_graph.hpp"

#include <opencv2/core.hpp>

#include <algorithm>

namespace latemile {

namespace {

// Field numbers of TensorFlow Lite's schema.fbs, version 3.
namespace model {
constexpr int operatorCodes = 1, subgraphs = 2, buffers = 4;
}
namespace operatorCode {
constexpr int oldCode = 0, code = 3;
}
namespace subgraph {
constexpr int tensors = 0, inputs = 1, outputs = 2, operators = 3;
}
namespace tensorField {
constexpr int shape = 0, type = 1, buffer = 2, name = 3, sparsity = 6;
}
namespace operatorField {
constexpr int code = 0, inputs = 1, outputs = 2, options = 4;
}
constexpr int bufferData = 0;
enum StoredType { float32 = 0, float16 = 1, int32 = 2 };

template <class List>
const auto& itemOf(const List& list, std::size_t place)
{
    if (place >= list.size()) {
        throw NetworkFault("a number of something that is not there");
    }
    return list[place];
}

std::size_t placeFrom(int number)
{
    if (number < 0) {
        throw NetworkFault("a negative number of a tensor");
    }
    return static_cast<std::size_t>(number);
}

std::vector<int> codesOf(const FlatTable& root)
{
    std::vector<int> codes;
    for (const auto& entry : root.tables(model::operatorCodes)) {
        codes.push_back(std::max<int>(entry.scalar<std::int8_t>(operatorCode::oldCode),
                                      entry.scalar<std::int32_t>(operatorCode::code)));
    }
    return codes;
}

/// How many values a shape holds, at most what the largest layer of such a network could.
std::size_t sizeOf(const std::vector<int>& shape)
{
    constexpr std::size_t most = std::size_t{1} << 26;
    std::size_t size = 1;
    for (const int length : shape) {
        if (length < 1 || size > most / static_cast<std::size_t>(length)) {
            throw NetworkFault("a shape that no layer has");
        }
        size *= static_cast<std::size_t>(length);
    }
    return size;
}

std::vector<float> widened(std::span<const std::uint8_t> halves)
{
    const int count = static_cast<int>(halves.size() / 2);
    cv::Mat narrow(1, count, CV_16S);
    std::memcpy(narrow.data, halves.data(), static_cast<std::size_t>(count) * 2);
    std::vector<float> wide(static_cast<std::size_t>(count));
    cv::Mat target(1, count, CV_32F, wide.data());
    cv::convertFp16(narrow, target);
    return wide;
}

template <class T>
std::vector<T> copied(std::span<const std::uint8_t> bytes)
{
    std::vector<T> values(bytes.size() / sizeof(T));
    std::memcpy(values.data(), bytes.data(), values.size() * sizeof(T));
    return values;
}

} // namespace

NetworkGraph::NetworkGraph(const FlatBytes& bytes)
{
    const auto mark = bytes.range(4, 4);
    if (std::memcmp(mark.data(), "TFL3", 4) != 0) {
        throw NetworkFault("no mark of a TensorFlow Lite file");
    }
    const auto root = FlatTable::rootOf(bytes);
    const auto codes = codesOf(root);
    const auto graphs = root.tables(model::subgraphs);
    const auto& graph = itemOf(graphs, 0);
    m_buffers = root.tables(model::buffers);
    m_tensors = graph.tables(subgraph::tensors);
    for (const auto& tensor : m_tensors) {
        m_shapes.push_back(tensor.integers(tensorField::shape));
    }
    for (const auto& entry : graph.tables(subgraph::operators)) {
        const auto outputs = entry.integers(operatorField::outputs);
        const int output = itemOf(outputs, 0);
        const auto code = itemOf(codes, entry.scalar<std::uint32_t>(operatorField::code));
        m_makers[output] = m_nodes.size();
        m_nodes.push_back({static_cast<NetworkOp>(code), entry.integers(operatorField::inputs),
                           output, entry.table(operatorField::options)});
    }
    m_outputs = graph.integers(subgraph::outputs);
    const auto inputs = graph.integers(subgraph::inputs);
    m_input = itemOf(inputs, 0);
}

const NetworkNode* NetworkGraph::maker(int tensor) const
{
    const auto found = m_makers.find(tensor);
    return found == m_makers.end() ? nullptr : &m_nodes[found->second];
}

const std::vector<int>& NetworkGraph::shape(int tensor) const
{
    return itemOf(m_shapes, placeFrom(tensor));
}

int NetworkGraph::outputNamed(const std::string& name) const
{
    for (const int tensor : m_outputs) {
        if (itemOf(m_tensors, placeFrom(tensor)).text(tensorField::name) == name) {
            return tensor;
        }
    }
    throw NetworkFault("no output " + name);
}

std::span<const std::uint8_t> NetworkGraph::stored(int tensor) const
{
    const auto& entry = itemOf(m_tensors, placeFrom(tensor));
    return itemOf(m_buffers, entry.scalar<std::uint32_t>(tensorField::buffer)).bytes(bufferData);
}

bool NetworkGraph::isConstant(int tensor) const
{
    if (!stored(tensor).empty()) {
        return true;
    }
    const auto* node = maker(tensor);
    return node != nullptr && node->op == NetworkOp::Dequantize &&
           !stored(itemOf(node->inputs, 0)).empty();
}

NetworkConstant NetworkGraph::constant(int tensor) const
{
    const auto* node = maker(tensor);
    const int source = stored(tensor).empty() && node != nullptr ? itemOf(node->inputs, 0) : tensor;
    const auto& entry = itemOf(m_tensors, placeFrom(source));
    const auto bytes = stored(source);
    if (bytes.empty() || !entry.table(tensorField::sparsity).isEmpty()) {
        throw NetworkFault("weights that are missing or stored sparsely");
    }
    NetworkConstant values;
    values.shape = shape(source);
    switch (entry.scalar<std::int8_t>(tensorField::type)) {
    case float32:
        values.floats = copied<float>(bytes);
        break;
    case float16:
        values.floats = widened(bytes);
        break;
    case int32:
        values.integers = copied<int>(bytes);
        break;
    default:
        throw NetworkFault("values of a kind the pose network does not have");
    }
    if (values.floats.size() + values.integers.size() != sizeOf(values.shape)) {
        throw NetworkFault("weights of another size than their shape");
    }
    return values;
}

std::set<int> NetworkGraph::neededFor(const std::vector<std::string>& outputs) const
{
    std::set<int> needed;
    std::vector<int> toVisit;
    for (const auto& name : outputs) {
        toVisit.push_back(outputNamed(name));
    }
    while (!toVisit.empty()) {
        const int tensor = toVisit.back();
        toVisit.pop_back();
        if (tensor < 0 || isConstant(tensor) || !needed.insert(tensor).second) {
            continue;
        }
        if (const auto* node = maker(tensor)) {
            toVisit.insert(toVisit.end(), node->inputs.begin(), node->inputs.end());
        }
    }
    return needed;
}

std::vector<NetworkNode> NetworkGraph::nodesFor(const std::vector<std::string>& outputs) const
{
    const auto needed = neededFor(outputs);
    std::vector<NetworkNode> nodes;
    std::copy_if(m_nodes.begin(), m_nodes.end(), std::back_inserter(nodes),
                 [&needed](const NetworkNode& node) { return needed.contains(node.output); });
    return nodes;
}

} // namespace latemile
