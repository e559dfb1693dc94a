// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QWidget>

#include <functional>

class QLabel;
class QPrinter;
class QPushButton;
class QScrollArea;

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
    [[nodiscard]] SheetOptions& options() const { return *m_options; }
    /// Writes the sheet; the ending of the name decides, ".png", ".html" or else PDF. Told on the
    /// page, and refused there while no consent holds that pictures of the athlete may leave.
    bool exportTo(const QString& file);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void build();
    QWidget* buildPaper();
    void connectAll();
    /// Does `act` at once where consent is noted, else once the coach has noted it.
    void withConsent(const std::function<void()>& act);
    /// Of the first filter by default; an ending that is left out is added.
    void askAndExport(const QStringList& filters);
    void print();
    void printOn(QPrinter& printer);
    void tellMade();
    void fitPaper();

    PageContext m_context;
    SheetMaker* m_maker;
    SheetOptions* m_options;
    QScrollArea* m_desk;
    PaperView* m_paper;
    QPushButton* m_closer;
    QPushButton* m_pdf;
    QPushButton* m_other; ///< picture, or page for the screen
    QPushButton* m_print;
    QLabel* m_told;
};

} // namespace latemile::ui
