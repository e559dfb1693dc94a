// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <utility>

namespace latemile {

/// An upright picture as it is shown: display rotation, mirroring and pixel aspect applied,
/// full-range sRGB-like, 32 bits a pixel in memory order B, G, R, X (what QImage calls Format_RGB32
/// on little-endian machines). The pixels are shared between holders and never change once the
/// picture is made.
class Picture {
public:
    Picture() = default;
    Picture(int width, int height, std::size_t bytesPerRow,
            std::shared_ptr<const std::uint8_t> pixels)
        : m_width(width), m_height(height), m_bytesPerRow(bytesPerRow), m_pixels(std::move(pixels))
    {
    }

    [[nodiscard]] bool isEmpty() const { return !m_pixels; }
    [[nodiscard]] int width() const { return m_width; }
    [[nodiscard]] int height() const { return m_height; }
    [[nodiscard]] std::size_t bytesPerRow() const { return m_bytesPerRow; }
    [[nodiscard]] const std::uint8_t* row(int y) const
    {
        return m_pixels.get() + static_cast<std::size_t>(y) * m_bytesPerRow;
    }
    /// The memory itself, for a holder that must keep it alive (a QImage's clean-up, a cv::Mat
    /// view).
    [[nodiscard]] const std::shared_ptr<const std::uint8_t>& pixels() const { return m_pixels; }

private:
    int m_width{};
    int m_height{};
    std::size_t m_bytesPerRow{};
    std::shared_ptr<const std::uint8_t> m_pixels;
};

} // namespace latemile
