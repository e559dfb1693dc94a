// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QWidget>

class QLabel;
class QListWidget;

namespace latemile::ui {

class SheetMaker;

/// Which measures stand on the sheet. A choice changed once there are numbers is marked as such,
/// and the sheet says so.
class MeasureChoice final : public QWidget {
    Q_OBJECT
public:
    MeasureChoice(const PageContext& context, const SheetMaker& maker, QWidget* parent = nullptr);
    [[nodiscard]] QListWidget& list() const { return *m_list; }

private:
    void offer();
    void fill();
    void take();
    void take(std::vector<std::string> measures);

    PageContext m_context;
    const SheetMaker& m_maker;
    QLabel* m_state;
    QListWidget* m_list;
    bool m_filling{};
    int m_gesture{};
};

} // namespace latemile::ui
