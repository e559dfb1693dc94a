// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/readings_page.hpp"

#include "core/measures/readings_file.hpp"
#include "core/whole_file.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/selection.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/readings/reading_words.hpp"
#include "ui/readings/readings_table.hpp"
#include "ui/readings/readings_text.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QClipboard>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

namespace latemile::ui {

ReadingsPage::ReadingsPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_player(new Player(this)),
      m_model(new ReadingsTable(this))
{
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->addWidget(buildTable());
    split->addWidget(buildPicture());
    split->setSizes({620, 460});
    split->setStretchFactor(0, 1);
    split->setStretchFactor(1, 1);
    split->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(new ClipSwitch(context, this));
    column->addWidget(split, 1);
    connect(&context.selection, &Selection::clipChanged, this, &ReadingsPage::setClip);
    connect(m_player, &Player::frameShown, m_view, &FrameView::setFrame);
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentChanged, this,
            &ReadingsPage::showCell);
    setClip();
}

ReadingsPage::~ReadingsPage()
{
    m_view->setTool(nullptr);
}

QWidget* ReadingsPage::buildTable()
{
    auto* side = new QWidget(this);
    m_table = new QTableView(side);
    m_table->setModel(m_model);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setShowGrid(false);
    m_table->setAutoScroll(false);
    m_table->setAccessibleName(tr("Readings"));
    m_table->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setDefaultSectionSize(4 * gridStep);
    m_fault = plainLabel({}, side);
    m_fault->setWordWrap(true);
    setState(*m_fault, "doubt");

    auto* text = new QPushButton(tr("Copy table"), side);
    auto* csv = new QPushButton(tr("Copy as CSV"), side);
    auto* save = new QPushButton(tr("Save CSV…"), side);
    connect(text, &QPushButton::clicked, this, &ReadingsPage::copyText);
    connect(csv, &QPushButton::clicked, this, &ReadingsPage::copyCsv);
    connect(save, &QPushButton::clicked, this, &ReadingsPage::saveCsv);
    auto* row = new QHBoxLayout;
    row->setSpacing(gridStep / 2);
    row->addWidget(text);
    row->addWidget(csv);
    row->addWidget(save);
    row->addStretch();
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_fault);
    column->addWidget(m_table, 1);
    column->addLayout(row);
    return side;
}

QWidget* ReadingsPage::buildPicture()
{
    auto* side = new QWidget(this);
    m_view = new FrameView(side);
    m_view->setTool(&m_tool);
    m_told = plainLabel({}, side);
    m_told->setWordWrap(true);
    m_meaning = quietLabel({}, side);
    m_meaning->setWordWrap(true);
    m_told->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(gridStep, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 1);
    column->addWidget(m_told);
    column->addWidget(m_meaning);
    column->addStretch();
    return side;
}

void ReadingsPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    m_tool.show(clip, {}, nullptr, {});
    m_view->setMessage(clip == nullptr
                           ? tr("This session has no clip yet. Add one on the Filming page.")
                           : clip->fault());
    m_player->setClip(clip);
    if (clip != nullptr) {
        connect(clip, &ClipDocument::readingsChanged, this, &ReadingsPage::tellReadings,
                Qt::UniqueConnection);
    }
    tellReadings();
}

void ReadingsPage::tellReadings()
{
    ClipDocument* clip = m_context.selection.clip();
    const QModelIndex was = m_table->currentIndex();
    const int column = was.isValid() ? was.column() : ReadingsTable::meanColumns;
    m_model->setReadings(clip == nullptr ? std::nullopt : clip->readings());
    const QString fault =
        clip == nullptr
            ? QString()
            : (clip->readingsFault().isEmpty() && m_model->rowCount() == 0
                   ? tr("No readings yet: mark contacts and landmarks on the Marks page.")
                   : clip->readingsFault());
    m_fault->setText(fault);
    m_fault->setVisible(!fault.isEmpty());
    m_table->resizeColumnsToContents();
    for (int row = 0; row < m_model->rowCount(); ++row) {
        if (fromUtf8(m_model->measureAt(row)->id) == m_shownMeasure) {
            m_table->setCurrentIndex(m_model->index(row, column));
            return;
        }
    }
    // A page that opens shows what it is for: the first number there is.
    for (int at = ReadingsTable::meanColumns; at < m_model->columnCount(); ++at) {
        const QModelIndex index = m_model->index(0, at);
        if (const Reading* reading = m_model->readingAt(index); reading && reading->value) {
            m_table->setCurrentIndex(index);
            return;
        }
    }
}

void ReadingsPage::showCell(const QModelIndex& index)
{
    ClipDocument* clip = m_context.selection.clip();
    const Measure* measure = m_model->measureAt(index.row());
    if (clip == nullptr || !clip->isOpen() || measure == nullptr) {
        return;
    }
    m_shownMeasure = fromUtf8(measure->id);
    setProperty("helpTopic", m_shownMeasure);
    m_meaning->setText(tellMeasure(*measure));
    const Reading* reading = m_model->readingAt(index);
    if (reading == nullptr) {
        const Summary* summary = m_model->summaryAt(index);
        m_told->setText(summary == nullptr
                            ? fromUtf8(measure->name)
                            : tr("%1, mean of %2 confirmed: %3.")
                                  .arg(fromUtf8(measure->name))
                                  .arg(summary->n)
                                  .arg(valueText(summary->mean, summary->se, *measure)));
        return;
    }
    m_told->setText(tellReading(*reading, *measure));
    if (reading->time) {
        const FrameNumber frame =
            measure->instant == Instant::Contact || measure->instant == Instant::ToeOff
                ? clip->index().firstAtOrAfter(*reading->time)
                : clip->index().nearest(*reading->time);
        m_tool.show(clip, frame, measure,
                    reading->value ? valueText(*reading->value, *measure) : QString());
        m_player->goTo(frame);
        m_view->update();
    }
}

void ReadingsPage::copyText() const
{
    QGuiApplication::clipboard()->setText(tabbedText(*m_model));
}

void ReadingsPage::copyCsv() const
{
    const ClipDocument* clip = m_context.selection.clip();
    if (clip != nullptr && clip->readings()) {
        QGuiApplication::clipboard()->setText(fromUtf8(readingsCsv(*clip->readings())));
    }
}

void ReadingsPage::saveCsv()
{
    const ClipDocument* clip = m_context.selection.clip();
    if (clip == nullptr || !clip->readings()) {
        return;
    }
    const QString file = QFileDialog::getSaveFileName(
        this, tr("Save readings"), QStringLiteral("readings.csv"), tr("Tables (*.csv)"));
    if (file.isEmpty()) {
        return;
    }
    if (const auto done = replaceFile(file.toStdString(), readingsCsv(*clip->readings())); !done) {
        m_fault->setText(fromUtf8(done.error().sentence));
        m_fault->show();
    }
}

} // namespace latemile::ui
