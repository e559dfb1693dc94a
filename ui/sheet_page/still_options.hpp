// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include "core/store/session.hpp"

#include <QWidget>

class QComboBox;

namespace latemile::ui {

class SheetMaker;

/// Which moments of which steps are shown on the sheet, of those that are marked.
class StillOptions final : public QWidget {
    Q_OBJECT
public:
    StillOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent = nullptr);
    [[nodiscard]] QComboBox& firstInstant() const { return *m_first; }
    [[nodiscard]] QComboBox& secondInstant() const { return *m_second; }
    [[nodiscard]] QComboBox& freshStep() const { return *m_fresh; }

private:
    QComboBox* choice(const QString& name);
    void fill();
    void fillSteps(QComboBox& box, const char* condition, std::optional<StepNumber> wished);
    [[nodiscard]] std::vector<Instant> instants() const;
    [[nodiscard]] bool canShow(Instant instant) const;
    void take();

    PageContext m_context;
    const SheetMaker& m_maker;
    QComboBox* m_first;
    QComboBox* m_second;
    QComboBox* m_fresh;
    QComboBox* m_fatigued;
    bool m_filling{};
    int m_gesture{200'000}; ///< apart from those of the other leaves
};

} // namespace latemile::ui
