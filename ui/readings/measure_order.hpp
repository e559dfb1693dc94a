// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"

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

    /// All measures, the coach's own too: those put in order first, then the rest as the table has
    /// them. `own` must outlive what is given.
    [[nodiscard]] std::vector<const Measure*> all(const OwnMeasures& own) const;
    [[nodiscard]] std::vector<const Measure*> shown(const OwnMeasures& own) const;
    [[nodiscard]] bool isHidden(const Measure& measure) const;
    void setHidden(const QString& id, bool hidden);
    void setOrder(const QStringList& ids) { m_order = ids; }
    bool operator==(const MeasureOrder&) const = default;

private:
    QStringList m_order;
    QSet<QString> m_hidden;
};

} // namespace latemile::ui
