// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"
#include "ui/sheet/sheet_style.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QLineEdit;
class QListWidget;
class QPlainTextEdit;

namespace latemile::ui {

class SheetMaker;

/// What stands on the sheet and how it prints: the measures, the cues, the coach's own words.
class SheetOptions final : public QWidget {
    Q_OBJECT
public:
    SheetOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent = nullptr);
    [[nodiscard]] SheetStyle style() const;

signals:
    void styleChanged();

private:
    void build();
    void fillMeasures();
    void fillCues();
    void takeMeasures();
    void takeCues();
    void takeWords();
    void tellAbout();

    PageContext m_context;
    const SheetMaker& m_maker;
    QListWidget* m_measures;
    QListWidget* m_cues;
    QPlainTextEdit* m_note;
    QLineEdit* m_coach;
    QLineEdit* m_contact;
    QComboBox* m_paper;
    QCheckBox* m_large;
    QCheckBox* m_grey;
    QCheckBox* m_inches;
    bool m_filling{};
    int m_gesture{};
};

} // namespace latemile::ui
