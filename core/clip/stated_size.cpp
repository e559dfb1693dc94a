// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/stated_size.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <string_view>

namespace latemile {

namespace {

constexpr std::size_t headBytes = 4096; ///< EBML's own head is some forty bytes
constexpr std::int64_t farthest = std::int64_t{1} << 60;

/// What stands at the top of MP4 and QuickTime files. Something else behind the last box is a
/// camera's own, in no known form.
bool isBoxOfFilm(std::string_view name)
{
    constexpr std::array<std::string_view, 16> names{"ftyp", "styp", "moov", "moof", "mdat", "mfra",
                                                     "sidx", "ssix", "free", "skip", "wide", "udta",
                                                     "uuid", "meta", "prft", "pnot"};
    return std::ranges::find(names, name) != names.end();
}

/// The first bytes of a file, read one after another; past their end everything is nothing.
class Head {
public:
    explicit Head(const ClipFile& file)
    {
        const auto got = file.readAt(0, m_bytes.data(), m_bytes.size());
        m_count = got > 0 ? static_cast<std::size_t>(got) : 0;
    }

    [[nodiscard]] std::int64_t place() const { return static_cast<std::int64_t>(m_place); }
    [[nodiscard]] bool begins(const char* four) const
    {
        return m_count >= 4 && std::memcmp(m_bytes.data(), four, 4) == 0;
    }
    [[nodiscard]] bool holdsBoxes() const
    {
        return m_count >= 8 && isBoxOfFilm({reinterpret_cast<const char*>(m_bytes.data()) + 4, 4});
    }
    void passOver(std::int64_t count)
    {
        const auto left = static_cast<std::int64_t>(m_count - m_place);
        m_place = count >= 0 && count <= left ? m_place + static_cast<std::size_t>(count) : m_count;
    }

    /// An element's name: its marker bit stays.
    std::optional<std::uint64_t> name() { return variable(true); }
    /// An element's length; nothing where all its bits are set, which means unknown.
    std::optional<std::int64_t> length()
    {
        const auto from = m_place;
        const auto value = variable(false);
        const auto bits = 7 * (m_place - from);
        const bool unknown = value && *value == (std::uint64_t{1} << bits) - 1;
        return value && !unknown ? std::optional(static_cast<std::int64_t>(*value)) : std::nullopt;
    }
    /// Four bytes, the least significant first.
    std::optional<std::int64_t> little32()
    {
        std::int64_t value = 0;
        for (unsigned shift = 0; shift < 32; shift += 8) {
            const auto byte = next();
            if (!byte) {
                return std::nullopt;
            }
            value |= static_cast<std::int64_t>(*byte) << shift;
        }
        return value;
    }

private:
    std::optional<std::uint8_t> next()
    {
        return m_place < m_count ? std::optional(m_bytes[m_place++]) : std::nullopt;
    }

    /// A number of EBML: as many bytes as zeros lead the first one, and that one.
    std::optional<std::uint64_t> variable(bool keepMarker)
    {
        const auto first = next();
        if (!first || *first == 0) {
            return std::nullopt;
        }
        const int more = std::countl_zero(*first);
        std::uint64_t value = keepMarker ? *first : *first & (0xffU >> (more + 1));
        for (int i = 0; i < more; ++i) {
            const auto byte = next();
            if (!byte) {
                return std::nullopt;
            }
            value = value << 8 | *byte;
        }
        return value;
    }

    std::array<std::uint8_t, headBytes> m_bytes{};
    std::size_t m_count{};
    std::size_t m_place{};
};

std::optional<std::int64_t> sizeOfMatroska(Head& head)
{
    constexpr std::uint64_t segment = 0x18538067;
    (void)head.name();
    const auto ownHead = head.length();
    if (!ownHead) {
        return std::nullopt;
    }
    head.passOver(*ownHead);
    const auto name = head.name();
    const auto length = head.length();
    return name == segment && length ? std::optional(head.place() + *length) : std::nullopt;
}

std::optional<std::int64_t> sizeOfRiff(Head& head)
{
    head.passOver(4);
    const auto length = head.little32();
    // An unfinished recording has 0 there.
    return length && *length > 0 ? std::optional(head.place() + *length) : std::nullopt;
}

std::int64_t bigEndian(const unsigned char* bytes, int count)
{
    std::int64_t value = 0;
    for (int i = 0; i < count; ++i) {
        value = value << 8 | bytes[i];
    }
    return value;
}

/// The end of the last box, each of which says its own length (ISO/IEC 14496-12, 4.2): 0 for up to
/// the file's end, 1 where the length follows in eight bytes.
std::optional<std::int64_t> sizeOfBoxes(const ClipFile& file)
{
    constexpr int mostBoxes = 100'000;
    constexpr std::int64_t headSize = 8;
    constexpr std::int64_t longHeadSize = 16;
    std::int64_t place = 0;
    for (int count = 0; place < file.size(); ++count) {
        std::array<unsigned char, longHeadSize> head{};
        const auto got = file.readAt(place, head.data(), head.size());
        const std::string_view name(reinterpret_cast<const char*>(head.data()) + 4, 4);
        if (got < headSize || count == mostBoxes || !isBoxOfFilm(name)) {
            return std::nullopt;
        }
        const auto shortLength = bigEndian(head.data(), 4);
        const auto length = shortLength == 1 ? bigEndian(head.data() + 8, 8) : shortLength;
        if (length < (shortLength == 1 ? longHeadSize : headSize) || length > farthest - place) {
            return std::nullopt;
        }
        place += length;
    }
    return place;
}

} // namespace

std::optional<std::int64_t> statedSize(const ClipFile& file)
{
    Head head(file);
    if (head.holdsBoxes()) {
        return sizeOfBoxes(file);
    }
    if (head.begins("\x1a\x45\xdf\xa3")) {
        return sizeOfMatroska(head);
    }
    return head.begins("RIFF") ? sizeOfRiff(head) : std::nullopt;
}

} // namespace latemile
