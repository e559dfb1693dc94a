// SPDX-License-Identifier: GPL-3.0-or-later
// A reader of C3D files written from the format's public description (The C3D File Format User
// Guide, c3d.org; from memory): header, parameters, points as floating-point numbers. It shares
// nothing with the writer.
#pragma once

#include <cstdint>
#include <cstring>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace latemile::tests {

struct C3dParameter {
    int type{}; ///< -1 characters, 1 bytes, 2 integers, 4 floats
    std::vector<int> dimensions;
    std::string data;
};

struct C3dPoint {
    float x{}, y{}, z{}, residual{};
};

struct C3dFile {
    int points{}, firstFrame{}, lastFrame{}, dataBlock{};
    float scale{}, rate{};
    std::map<std::string, C3dParameter> parameters; ///< by "GROUP:NAME"
    std::vector<std::vector<C3dPoint>> frames;
};

class C3dReader {
public:
    explicit C3dReader(std::string bytes) : m_bytes(std::move(bytes)) {}

    C3dFile read()
    {
        need(m_bytes.size() % 512 == 0 && byteAt(1) == 0x50, "no C3D file");
        m_file.points = wordAt(2);
        need(wordAt(4) == 0, "no analogue data expected");
        m_file.firstFrame = wordAt(6);
        m_file.lastFrame = wordAt(8);
        m_file.scale = floatAt(12);
        m_file.dataBlock = wordAt(16);
        m_file.rate = floatAt(20);
        readParameters((byteAt(0) - 1) * 512U);
        readFrames();
        return m_file;
    }

private:
    static void need(bool true_, const char* what)
    {
        if (!true_) {
            throw std::runtime_error(what);
        }
    }
    std::uint8_t byteAt(std::size_t at) const { return static_cast<std::uint8_t>(m_bytes.at(at)); }
    int signedAt(std::size_t at) const { return static_cast<std::int8_t>(byteAt(at)); }
    int wordAt(std::size_t at) const { return byteAt(at) + 256 * byteAt(at + 1); }
    float floatAt(std::size_t at) const
    {
        float value{};
        need(at + 4 <= m_bytes.size(), "a number beyond the end");
        std::memcpy(&value, m_bytes.data() + at, 4); // little-endian, as this machine
        return value;
    }

    void readParameters(std::size_t section)
    {
        need(byteAt(section + 3) == 84, "processor type Intel");
        const auto end = section + 512U * byteAt(section + 2);
        std::map<int, std::string> groups;
        std::size_t at = section + 4;
        while (at < end && byteAt(at) != 0) {
            const auto length = static_cast<std::size_t>(std::abs(signedAt(at)));
            const int id = signedAt(at + 1);
            const auto name = m_bytes.substr(at + 2, length);
            const auto pointer = at + 2 + length;
            if (id < 0) {
                groups[-id] = name;
            } else {
                m_file.parameters[groups.at(id) + ":" + name] = parameterAt(pointer + 2);
            }
            if (wordAt(pointer) == 0) {
                break;
            }
            at = pointer + static_cast<std::size_t>(wordAt(pointer));
        }
        need(at <= end, "parameters beyond their blocks");
    }

    C3dParameter parameterAt(std::size_t at)
    {
        C3dParameter parameter;
        parameter.type = signedAt(at);
        auto size = static_cast<std::size_t>(std::abs(parameter.type));
        const int count = byteAt(at + 1);
        for (int i = 0; i < count; ++i) {
            parameter.dimensions.push_back(byteAt(at + 2 + static_cast<std::size_t>(i)));
            size *= static_cast<std::size_t>(parameter.dimensions.back());
        }
        parameter.data = m_bytes.substr(at + 2 + static_cast<std::size_t>(count), size);
        return parameter;
    }

    void readFrames()
    {
        auto at = (static_cast<std::size_t>(m_file.dataBlock) - 1) * 512;
        for (int frame = m_file.firstFrame; frame <= m_file.lastFrame; ++frame) {
            auto& points = m_file.frames.emplace_back();
            for (int i = 0; i < m_file.points; ++i, at += 16) {
                points.push_back({floatAt(at), floatAt(at + 4), floatAt(at + 8), floatAt(at + 12)});
            }
        }
    }

    std::string m_bytes;
    C3dFile m_file;
};

/// Texts of a parameter of characters, without the spaces that fill them up.
inline std::vector<std::string> textsOf(const C3dParameter& parameter)
{
    const auto length = static_cast<std::size_t>(parameter.dimensions.at(0));
    std::vector<std::string> texts;
    for (std::size_t at = 0; at < parameter.data.size(); at += length) {
        auto text = parameter.data.substr(at, length);
        text.erase(text.find_last_not_of(' ') + 1);
        texts.push_back(text);
    }
    return texts;
}

inline std::vector<float> floatsOf(const C3dParameter& parameter)
{
    std::vector<float> numbers(parameter.data.size() / 4);
    std::memcpy(numbers.data(), parameter.data.data(), numbers.size() * 4);
    return numbers;
}

} // namespace latemile::tests
