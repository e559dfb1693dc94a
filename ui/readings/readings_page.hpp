// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "ui/page/page_context.hpp"
#include "ui/readings/reading_tool.hpp"

#include <QWidget>

class QLabel;
class QModelIndex;
class QTableView;

namespace latemile::ui {

class ChecksTable;
class ClipDocument;
class FrameView;
class Player;
class ReadingsTable;

/// Every reading of a clip with its error; a number shows the frame and the lines it came from.
class ReadingsPage final : public QWidget {
    Q_OBJECT
public:
    explicit ReadingsPage(const PageContext& context, QWidget* parent = nullptr);
    ~ReadingsPage() override;

    [[nodiscard]] QTableView& table() const { return *m_table; }
    [[nodiscard]] ReadingsTable& readings() const { return *m_model; }
    [[nodiscard]] FrameView& view() const { return *m_view; }

private:
    QWidget* buildTable();
    QWidget* buildPicture();
    void setClip();
    void tellReadings();
    void chooseMeasures();
    void editOwnMeasures();
    [[nodiscard]] QString faultOf(const ClipDocument* clip) const;
    void showMean(ClipDocument& clip, const QModelIndex& index, const Measure& measure);
    void tell(const QString& told, const QString& sources);
    void showReading(ClipDocument& clip, const Reading& reading, const Measure& measure);
    void showCell(const QModelIndex& index);
    void copyText() const;
    void copyCsv() const;
    void saveCsv();

    PageContext m_context;
    ReadingTool m_tool;
    Player* m_player;
    ReadingsTable* m_model;
    QTableView* m_table{};
    FrameView* m_view{};
    QLabel* m_fault{};
    ChecksTable* m_checks{};
    QLabel* m_told{};
    QLabel* m_sources{};
    QLabel* m_meaning{};
    QString m_shownMeasure; ///< kept over a recount, so that a nudge does not lose the place
};

} // namespace latemile::ui
