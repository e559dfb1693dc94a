// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/sheet/sheet_style.hpp"

#include <QWidget>

namespace latemile::ui {

class SheetMaker;

/// The page as it will print, as large as the window allows; in place of it what is missing.
class PaperView final : public QWidget {
    Q_OBJECT
public:
    PaperView(const SheetMaker& maker, QWidget* parent = nullptr);
    void setStyle(const SheetStyle& style);
    [[nodiscard]] QSize sizeHint() const override { return {480, 680}; }
    [[nodiscard]] QSizeF paper() const { return paperSize(m_style.paper); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    const SheetMaker& m_maker;
    SheetStyle m_style;
};

} // namespace latemile::ui
