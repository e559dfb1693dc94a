// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/picture/ink.hpp"

#include <QWidget>

namespace latemile::ui {

/// A short piece of a figure's line with a dot: which figure on the pictures is whose.
class InkSwatch final : public QWidget {
    Q_OBJECT
public:
    explicit InkSwatch(QWidget* parent = nullptr);
    void setInk(const FigureInk& ink);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    FigureInk m_ink;
};

} // namespace latemile::ui
