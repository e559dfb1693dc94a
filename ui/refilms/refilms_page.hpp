// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"
#include "ui/refilms/refilm_plot.hpp"

#include <QDate>
#include <QWidget>

#include <string_view>

class QCheckBox;
class QDateEdit;
class QLabel;
class QTableView;

namespace latemile::ui {

class RefilmPlots;
class RefilmsMaker;
class RefilmsTable;

/// The athlete's months: small plots, what was worked on between filming days, and a table.
class RefilmsPage final : public QWidget {
    Q_OBJECT
public:
    explicit RefilmsPage(const PageContext& context, QWidget* parent = nullptr);

    [[nodiscard]] const RefilmsMaker& maker() const { return *m_maker; }
    [[nodiscard]] const RefilmsTable& table() const { return *m_model; }
    [[nodiscard]] const RefilmPlots& plots() const { return *m_plots; }
    [[nodiscard]] QDateEdit& nextDate() const { return *m_next; }
    /// The table as CSV; false with a sentence on the page where that failed.
    bool exportTo(const QString& file);

protected:
    void changeEvent(QEvent* event) override;

private:
    QWidget* buildHead();
    QWidget* buildTable();
    void tell();
    void tellDays();
    void tellCues();
    void fill();
    void save();
    void takeNext(QDate date);
    [[nodiscard]] std::vector<CueSpan> cueSpans() const;
    [[nodiscard]] bool isShown(const Measure& measure) const;

    PageContext m_context;
    RefilmsMaker* m_maker;
    RefilmsTable* m_model;
    RefilmPlots* m_plots;
    QTableView* m_table{};
    QCheckBox* m_all{};
    QDateEdit* m_next{};
    QLabel* m_days{};
    QLabel* m_cues{};
    QLabel* m_told{};
};

} // namespace latemile::ui
