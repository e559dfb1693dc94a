// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/set_up_advice.hpp"

#include <QWidget>

#include <vector>

class QVBoxLayout;

namespace latemile::ui {

/// A check list: one line an item, with a sign and a sentence; colour is never the only sign.
class RemarkList final : public QWidget {
    Q_OBJECT
public:
    explicit RemarkList(const QString& name, QWidget* parent = nullptr);
    void setRemarks(const std::vector<Remark>& remarks);
    [[nodiscard]] const std::vector<Remark>& remarks() const { return m_remarks; }

private:
    std::vector<Remark> m_remarks;
    QVBoxLayout* m_column;
};

} // namespace latemile::ui
