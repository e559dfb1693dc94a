// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/camera_set_up.hpp"
#include "core/outcome.hpp"
#include "ui/filming/set_up_numbers.hpp"

#include <QRectF>
#include <QSizeF>
#include <QStringList>

#include <filesystem>
#include <optional>

class QPainter;

namespace latemile::ui {

/// What stands on the set-up card: the page a coach takes to the treadmill.
struct SetUpCard {
    std::vector<NamedNumber> camera;  ///< where the camera stands and how it is set
    std::vector<NamedNumber> picture; ///< what that gives
    std::vector<NamedNumber> errors;  ///< of one step
    QStringList checks;               ///< to tick off, in the order of the work
    QString caution;
    double distanceCm{};
    double lensHeightCm{};
};
[[nodiscard]] SetUpCard setUpCard(const CameraSetUp& setUp, const PictureGeometry& geometry,
                                  std::optional<double> legLengthCm);

enum class CardPaper { A5, A4 };

/// A5 upright, in twips: 148 x 210 mm. An A4 page holds the same card, larger.
[[nodiscard]] QSizeF cardSize();
/// Paints the card into `page`, whatever its unit: a printer's page, a part of the window. Returns
/// how much of the page's height it takes, 1 being all of it.
double paintSetUpCard(QPainter& painter, const QRectF& page, const SetUpCard& card);

/// One page of PDF, text and lines as such. The file appears whole or not at all.
Outcome<void> writeSetUpCard(const SetUpCard& card, CardPaper paper,
                             const std::filesystem::path& file);

} // namespace latemile::ui
