// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/orientation.hpp"

#include <cmath>
#include <cstring>
#include <numbers>

namespace latemile {

std::optional<DisplayMatrix> displayMatrixOf(const AVStream& stream)
{
    const std::uint8_t* data = nullptr;
    std::size_t size = 0;
#if LIBAVFORMAT_VERSION_INT >= AV_VERSION_INT(60, 15, 100)
    const auto& coded = *stream.codecpar;
    if (const auto* side = av_packet_side_data_get(coded.coded_side_data, coded.nb_coded_side_data,
                                                   AV_PKT_DATA_DISPLAYMATRIX)) {
        data = side->data;
        size = side->size;
    }
#else
    data = av_stream_get_side_data(&stream, AV_PKT_DATA_DISPLAYMATRIX, &size);
#endif
    DisplayMatrix matrix{};
    if (!data || size < sizeof matrix) {
        return std::nullopt;
    }
    std::memcpy(matrix.data(), data, sizeof matrix);
    return matrix;
}

Orientation orientationOf(const DisplayMatrix& matrix)
{
    // A stored place (x, y), y down, is shown at (a x + c y, b x + d y). A clockwise turn by w has
    // c = -sin w and d = cos w, mirrored or not; mirroring changes the signs of a and b.
    const double a = matrix[0];
    const double b = matrix[1];
    const double c = matrix[3];
    const double d = matrix[4];
    const double turn = std::atan2(-c, d) / std::numbers::pi * 2;
    const int quarters = static_cast<int>(std::lround(turn));
    return {.clockwiseDegrees = ((quarters % 4) + 4) % 4 * 90, .isMirrored = a * d - b * c < 0};
}

} // namespace latemile
