// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/colour.hpp"
#include "core/clip/libav_owners.hpp"
#include "core/clip/orientation.hpp"
#include "core/clip/picture.hpp"
#include "core/clip/shades.hpp"
#include "core/outcome.hpp"

#include <functional>
#include <memory>

namespace latemile {

/// From a stored picture to the upright one. Pixels become square by stretching the shorter way,
/// never by shrinking: a pixel twice as wide as high doubles the width.
struct UprightShape {
    int storedWidth{};
    int storedHeight{};
    double pixelAspect{1.0}; ///< width of a stored pixel over its height
    Orientation orientation;

    [[nodiscard]] int squareWidth() const;  ///< before turning
    [[nodiscard]] int squareHeight() const; ///< before turning
    [[nodiscard]] int width() const
    {
        return orientation.swapsSides() ? squareHeight() : squareWidth();
    }
    [[nodiscard]] int height() const
    {
        return orientation.swapsSides() ? squareWidth() : squareHeight();
    }
};

/// Makes upright pictures of decoded frames; the one place that knows of rotation, pixel aspect,
/// range, matrix and high dynamic range. The same frame gives the same bytes. From any thread.
class UprightMaker {
public:
    explicit UprightMaker(const UprightShape& shape);
    UprightMaker(UprightMaker&&) noexcept;
    UprightMaker& operator=(UprightMaker&&) noexcept;
    ~UprightMaker();

    [[nodiscard]] Outcome<Picture> make(const AVFrame& frame) const;
    /// Without colour: of a plain 8-bit frame its luma as coded, which costs a copy; of any other
    /// the grey of the picture.
    [[nodiscard]] Outcome<Shades> shades(const AVFrame& frame) const;
    /// Shows the same to `look`, the luma of a plain upright frame without a copy.
    [[nodiscard]] Outcome<void>
    lookAtShades(const AVFrame& frame, const std::function<void(const ShadesView&)>& look) const;

private:
    struct Inside;
    std::unique_ptr<Inside> m_inside;
};

} // namespace latemile
