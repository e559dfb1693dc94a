// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"
#include "core/measures/prepared_twice.hpp"

#include <QString>

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// What a measure being made up reads on a clip: its first step that has a value.
class OwnTrial {
public:
    /// `clip` as it stands now; null or not open: there is nothing to read.
    explicit OwnTrial(const ClipDocument* clip);

    /// "Step 3 of this clip: 12.4 ± 0.8 cm, read at contact." or why there is no value. `own` must
    /// be sound.
    [[nodiscard]] QString told(const OwnMeasure& own) const;

private:
    std::optional<PreparedTwice> m_clip;
    QString m_whyNot;
};

} // namespace latemile::ui
