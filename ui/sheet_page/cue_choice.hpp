// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QScrollArea>

#include <string>
#include <vector>

class QCheckBox;

namespace latemile::ui {

class SheetMaker;

/// The cues with why each fits or does not: the two that the numbers suggest first. Ticked are
/// those on the sheet; at most two.
class CueChoice final : public QScrollArea {
    Q_OBJECT
public:
    CueChoice(const PageContext& context, const SheetMaker& maker, QWidget* parent = nullptr);
    [[nodiscard]] const std::vector<QCheckBox*>& boxes() const { return m_boxes; }

private:
    struct Offer {
        std::string id;
        QString think;
        QString reason;
        bool suggested{};
        bool fits{};
    };
    [[nodiscard]] std::vector<Offer> offers() const;
    void fill();
    void build(const std::vector<Offer>& offers);
    void take();

    PageContext m_context;
    const SheetMaker& m_maker;
    std::vector<QCheckBox*> m_boxes;
    QString m_built; ///< what stands in the boxes, so that they are made anew only when it changes
    bool m_filling{};
    int m_gesture{100'000}; ///< apart from those of the other leaves
};

} // namespace latemile::ui
