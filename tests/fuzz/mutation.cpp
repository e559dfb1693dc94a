// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/mutation.hpp"

#include <algorithm>
#include <array>

namespace latemile::fuzz {

namespace {

using Dice = std::mt19937;

std::size_t below(std::size_t end, Dice& dice)
{
    return end == 0 ? 0 : std::uniform_int_distribution<std::size_t>(0, end - 1)(dice);
}

void turnBit(std::string& bytes, Dice& dice)
{
    auto& byte = bytes[below(bytes.size(), dice)];
    byte = static_cast<char>(static_cast<unsigned char>(byte) ^ (1U << below(8, dice)));
}

void setRun(std::string& bytes, Dice& dice)
{
    const auto at = below(bytes.size(), dice);
    const auto count = std::min(bytes.size() - at, 1 + below(16, dice));
    constexpr std::array values{'\0', '\xff', '\x7f', '\x80', '"', '{', '9', '-'};
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), count,
                values[below(values.size(), dice)]);
}

void takeOut(std::string& bytes, Dice& dice)
{
    const auto at = below(bytes.size(), dice);
    bytes.erase(at, 1 + below(64, dice));
}

void doubleRun(std::string& bytes, Dice& dice)
{
    const auto at = below(bytes.size(), dice);
    const auto run = bytes.substr(at, 1 + below(256, dice));
    bytes.insert(below(bytes.size(), dice), run);
}

void exchangeRuns(std::string& bytes, Dice& dice)
{
    const auto count = 1 + below(32, dice);
    const auto one = below(bytes.size(), dice);
    const auto other = below(bytes.size(), dice);
    for (std::size_t i = 0; i < count && one + i < bytes.size() && other + i < bytes.size(); ++i) {
        std::swap(bytes[one + i], bytes[other + i]);
    }
}

void putIn(std::string& bytes, Dice& dice)
{
    constexpr std::array<std::string_view, 14> words{
        "NaN", "1e999",  "-1",   "99999999999999999999", "null",       "\xc3\x28", "\n",
        "[[[", "\"\"\"", "true", "4294967295",           "\r\n,,,,\r", "../",      "=1+1"};
    bytes.insert(below(bytes.size(), dice), words[below(words.size(), dice)]);
}

} // namespace

std::string truncated(std::string_view sound, std::mt19937& dice)
{
    return std::string(sound.substr(0, below(sound.size(), dice)));
}

std::string mutated(std::string_view sound, std::mt19937& dice)
{
    constexpr std::array kinds{&turnBit, &setRun, &takeOut, &doubleRun, &exchangeRuns, &putIn};
    std::string bytes(sound);
    const auto times = 1 + below(8, dice);
    for (std::size_t i = 0; i < times && !bytes.empty(); ++i) {
        kinds[below(kinds.size(), dice)](bytes, dice);
    }
    return below(10, dice) == 0 ? truncated(bytes, dice) : bytes;
}

} // namespace latemile::fuzz
