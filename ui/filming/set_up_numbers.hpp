// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/camera_set_up.hpp"
#include "core/filming/expected_errors.hpp"

#include <QString>

#include <vector>

namespace latemile::ui {

/// A name and its number with unit: a row of the calculator's answer and of the set-up card.
struct NamedNumber {
    QString name;
    QString number;
    bool operator==(const NamedNumber&) const = default;
};

/// A pixel, what the picture covers, how far frames are apart and what smears.
[[nodiscard]] std::vector<NamedNumber> pictureNumbers(const CameraSetUp& setUp,
                                                      const PictureGeometry& geometry);
/// "Foot ahead of hip", "± 1.4 cm": one step, marked once.
[[nodiscard]] std::vector<NamedNumber> errorNumbers(const std::vector<ExpectedError>& errors);

} // namespace latemile::ui
