// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/readings_page.hpp"

#include "core/measures/readings_file.hpp"
#include "core/whole_file.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/own_measures/own_measures_dialog.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/athlete_part.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/readings/checks_table.hpp"
#include "ui/readings/measures_dialog.hpp"
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
#include <QScrollArea>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

namespace latemile::ui {

ReadingsPage::ReadingsPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_player(new Player(this)),
      m_model(new ReadingsTable(this))
{
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->setHandleWidth(2 * gridStep);
    split->addWidget(buildTable());
    split->addWidget(buildPicture());
    split->setSizes({720, 360});
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

    auto* choose = new QPushButton(tr("Measures shown…"), side);
    auto* own = new QPushButton(side);
    m_context.keys.label(*own, "readings.own", tr("Own measures…"));
    m_context.keys.action("readings.own", this, [this] { editOwnMeasures(); });
    auto* text = new QPushButton(tr("Copy table"), side);
    auto* csv = new QPushButton(tr("Copy as CSV"), side);
    auto* save = new QPushButton(tr("Save CSV…"), side);
    connect(choose, &QPushButton::clicked, this, &ReadingsPage::chooseMeasures);
    connect(own, &QPushButton::clicked, this, &ReadingsPage::editOwnMeasures);
    connect(text, &QPushButton::clicked, this, &ReadingsPage::copyText);
    connect(csv, &QPushButton::clicked, this, &ReadingsPage::copyCsv);
    connect(save, &QPushButton::clicked, this, &ReadingsPage::saveCsv);
    auto* row = new QHBoxLayout;
    row->setSpacing(gridStep / 2);
    row->addWidget(choose);
    row->addWidget(own);
    row->addWidget(text);
    row->addWidget(csv);
    row->addWidget(save);
    row->addStretch();
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_fault);
    column->addWidget(m_table, 3);
    column->addLayout(row);
    m_checks = new ChecksTable(side);
    column->addWidget(m_checks, 1);
    return side;
}

QWidget* ReadingsPage::buildPicture()
{
    auto* side = new QWidget(this);
    m_view = new FrameView(side);
    m_view->setTool(&m_tool);
    auto* words = new QWidget(side);
    words->setProperty("rank", "page");
    m_told = plainLabel({}, words);
    m_sources = plainLabel({}, words);
    m_meaning = quietLabel({}, words);
    auto* lines = new QVBoxLayout(words);
    lines->setContentsMargins(0, 0, gridStep, 0);
    lines->setSpacing(gridStep);
    for (QLabel* label : {m_told, m_sources, m_meaning}) {
        label->setWordWrap(true);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
        lines->addWidget(label);
    }
    lines->addStretch();
    // Words of any length must not move the picture.
    auto* scroll = new QScrollArea(side);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(words);
    scroll->setAccessibleName(tr("The number chosen, its error and its meaning"));
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(gridStep, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 3);
    column->addWidget(scroll, 2);
    return side;
}

void ReadingsPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    m_tool.show(clip, {});
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
    m_checks->setChecks(clip == nullptr || !clip->readings() ? std::vector<Check>{}
                                                             : clip->readings()->checks);
    m_fault->setText(faultOf(clip));
    m_fault->setVisible(!m_fault->text().isEmpty());
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

/// Why there are no readings, or not all of them; empty where all is well.
QString ReadingsPage::faultOf(const ClipDocument* clip) const
{
    if (clip == nullptr) {
        return {};
    }
    if (!clip->readingsFault().isEmpty()) {
        return clip->readingsFault();
    }
    if (m_model->rowCount() == 0) {
        return tr("No readings yet: mark contacts and landmarks on the Marks page.");
    }
    const QString fault = m_context.session.ownMeasuresFault();
    return fault.isEmpty() ? fault : tr("Read without your own measures: %1").arg(fault);
}

void ReadingsPage::editOwnMeasures()
{
    OwnMeasuresDialog(m_context.session, m_context.selection.clip(), this).exec();
    tellReadings(); // the document of own measures may have been put right meanwhile
}

void ReadingsPage::chooseMeasures()
{
    MeasuresDialog dialog(m_model->order(), m_context.session.ownMeasures(), this);
    if (dialog.exec() == QDialog::Accepted) {
        m_model->setOrder(dialog.order());
        m_table->resizeColumnsToContents();
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
        showMean(*clip, index, *measure);
        return;
    }
    const auto explained = explain(clip->marked(), *measure, reading->step);
    tell(tellReading(*reading, *measure),
         explained ? tellSources(*explained, *measure) : fromUtf8(explained.error().sentence));
    if (reading->time) {
        showReading(*clip, *reading, *measure);
    }
}

void ReadingsPage::tell(const QString& told, const QString& sources)
{
    m_told->setText(told);
    m_sources->setText(sources);
    m_sources->setVisible(!sources.isEmpty());
}

/// A mean has no frame of its own: the picture is that of the step nearest to it.
void ReadingsPage::showMean(ClipDocument& clip, const QModelIndex& index, const Measure& measure)
{
    const Summary* summary = m_model->summaryAt(index);
    const QString told = m_model->told(index);
    if (summary == nullptr) {
        tell(told.isEmpty() ? fromUtf8(measure.name) : told + u'.', {});
        return;
    }
    const auto explained =
        explainMean(clip.marked(), measure, {.foot = summary->foot, .confirmedOnly = true});
    const QString sources = explained ? tellMeanSources(*explained, *summary, measure)
                                      : fromUtf8(explained.error().sentence);
    const Reading* nearest = m_model->nearestTo(*summary);
    if (nearest == nullptr || !nearest->time) {
        tell(told + u'.', sources);
        return;
    }
    tell(tr("%1. The picture is step %2, the nearest to it.").arg(told).arg(nearest->step->value),
         sources);
    showReading(clip, *nearest, measure);
}

/// The frame, cut to the athlete, with the lines the number came from.
void ReadingsPage::showReading(ClipDocument& clip, const Reading& reading, const Measure& measure)
{
    const bool event = measure.instant == Instant::Contact || measure.instant == Instant::ToeOff;
    const FrameNumber frame =
        event ? clip.index().firstAtOrAfter(*reading.time) : clip.index().nearest(*reading.time);
    m_tool.show(&clip, frame, measure, m_model->own(),
                reading.value ? roundedText(*reading.value, reading.se, measure) : QString());
    m_player->goTo(frame);
    if (const auto part = athletePart(clip, frame)) {
        m_view->fitPart(*part);
    }
    m_view->update();
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
