// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QProxyStyle>

namespace latemile::ui {

/// Fusion, but for the box of a check mark, whose edge there is too faint to be seen in the dark:
/// here it stands at 3:1 or more like every other control's.
class IndicatorStyle final : public QProxyStyle {
public:
    IndicatorStyle() : QProxyStyle(QStringLiteral("Fusion")) {}
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
};

} // namespace latemile::ui
