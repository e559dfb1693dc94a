// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>

namespace latemile::ui {

/// A line of plain text that gives way where there is no room: its end becomes an ellipsis then,
/// and the tool tip and a screen reader have it whole.
class ElidedLabel final : public QLabel {
    Q_OBJECT
public:
    explicit ElidedLabel(QWidget* parent = nullptr);

    void setWhole(const QString& text);
    [[nodiscard]] QSize sizeHint() const override; ///< of the whole text
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void fit();

    QString m_whole;
};

} // namespace latemile::ui
