// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/filming/set_up_card.hpp"

#include <QWidget>

namespace latemile::ui {

/// The set-up card as it will print, as large as there is room for.
class CardView final : public QWidget {
    Q_OBJECT
public:
    explicit CardView(const std::optional<SetUpCard>& card, QWidget* parent = nullptr);
    [[nodiscard]] QSize sizeHint() const override { return {420, 596}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 340}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    const std::optional<SetUpCard>& m_card;
};

} // namespace latemile::ui
