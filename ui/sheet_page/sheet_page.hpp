// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QWidget>

class QLabel;
class QPushButton;

namespace latemile::ui {

class PaperView;
class SheetMaker;
class SheetOptions;

/// The athlete's sheet, live, with what can be chosen about it.
class SheetPage final : public QWidget {
    Q_OBJECT
public:
    explicit SheetPage(const PageContext& context, QWidget* parent = nullptr);

    [[nodiscard]] const SheetMaker& maker() const { return *m_maker; }
    /// Writes the sheet; the ending of the name decides, ".png" or else PDF. Told on the page.
    bool exportTo(const QString& file);

private:
    void build();
    void askAndExport(const QString& filter, const QString& ending);
    void print();
    void tellMade();

    PageContext m_context;
    SheetMaker* m_maker;
    SheetOptions* m_options;
    PaperView* m_paper;
    QPushButton* m_pdf;
    QPushButton* m_png;
    QPushButton* m_print;
    QLabel* m_told;
};

} // namespace latemile::ui
