// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"

#include <QSet>
#include <QString>
#include <QStringList>

#include <vector>

namespace latemile::ui {

/// Which measures the coach wants to see on the readings page, and in which order. Kept in the
/// settings, the same for every athlete.
class MeasureOrder {
public:
    [[nodiscard]] static MeasureOrder remembered();
    void remember() const;

    /// All measures: those the coach put in order first, then the rest as the table has them.
    [[nodiscard]] std::vector<const Measure*> all() const;
    [[nodiscard]] std::vector<const Measure*> shown() const;
    [[nodiscard]] bool isHidden(const Measure& measure) const;
    void setHidden(const Measure& measure, bool hidden);
    void setOrder(const QStringList& ids) { m_order = ids; }
    bool operator==(const MeasureOrder&) const = default;

private:
    QStringList m_order;
    QSet<QString> m_hidden;
};

} // namespace latemile::ui
