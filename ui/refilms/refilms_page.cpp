// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilms_page.hpp"

#include "core/compare/refilms_csv.hpp"
#include "core/measures/asked_landmarks.hpp"
#include "core/measures/measure.hpp"
#include "core/whole_file.hpp"
#include "ui/athletes/library.hpp"
#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/readings/readings_text.hpp"
#include "ui/refilms/refilm_plots.hpp"
#include "ui/refilms/refilms_maker.hpp"
#include "ui/refilms/refilms_table.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QClipboard>
#include <QDateEdit>
#include <QEvent>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLocale>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

QString longDate(const std::string& date)
{
    return QLocale().toString(QDate::fromString(fromUtf8(date), Qt::ISODate),
                              QStringLiteral("d MMMM yyyy"));
}

const Course* courseOf(const std::vector<Course>& courses, std::string_view measure)
{
    const auto found = std::ranges::find(courses, measure, &Course::measure);
    return found == courses.end() ? nullptr : &*found;
}

} // namespace

RefilmsPage::RefilmsPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(new RefilmsMaker(context.session, this)),
      m_model(new RefilmsTable(this)), m_plots(new RefilmPlots(this))
{
    auto* split = new QSplitter(Qt::Vertical, this);
    split->addWidget(m_plots);
    split->addWidget(buildTable());
    split->setSizes({440, 200});
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setChildrenCollapsible(false);
    m_cues = plainLabel({}, this);
    m_cues->setWordWrap(true);
    m_told = plainLabel({}, this);
    m_told->setWordWrap(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(buildHead());
    column->addWidget(m_cues);
    column->addWidget(m_told);
    column->addWidget(split, 1);
    connect(m_maker, &RefilmsMaker::made, this, &RefilmsPage::tell);
    connect(&context.session, &SessionDocument::aboutChanged, this, &RefilmsPage::tell);
    tell();
}

QWidget* RefilmsPage::buildHead()
{
    auto* head = new QWidget(this);
    m_days = quietLabel({}, head);
    m_days->setWordWrap(true);
    m_all = new QCheckBox(tr("Every measure"), head);
    m_next = new QDateEdit(head);
    m_next->setDisplayFormat(QStringLiteral("d MMM yyyy"));
    m_next->setCalendarPopup(true);
    m_next->setAccessibleName(tr("Next re-film"));
    auto* next = plainLabel(tr("Next re-film"), head);
    next->setBuddy(m_next);
    connect(m_next, &QDateEdit::dateChanged, this, &RefilmsPage::takeNext);
    auto* copy = new QPushButton(tr("Copy table"), head);
    auto* save = new QPushButton(tr("Save CSV…"), head);
    connect(m_all, &QCheckBox::toggled, this, &RefilmsPage::fill);
    connect(copy, &QPushButton::clicked, this,
            [this] { QGuiApplication::clipboard()->setText(tabbedText(*m_model)); });
    connect(save, &QPushButton::clicked, this, &RefilmsPage::save);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep);
    row->addWidget(m_days, 1);
    row->addWidget(next);
    row->addWidget(m_next);
    row->addWidget(m_all);
    row->addWidget(copy);
    row->addWidget(save);
    return head;
}

QWidget* RefilmsPage::buildTable()
{
    m_table = new QTableView(this);
    m_table->setModel(m_model);
    m_table->setShowGrid(false);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setAccessibleName(tr("Measures over the filming days"));
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_table->verticalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setDefaultSectionSize(4 * gridStep);
    return m_table;
}

bool RefilmsPage::isShown(const Measure& measure) const
{
    if (m_all->isChecked()) {
        return measure.variant.empty();
    }
    const auto& chosen = m_context.session.about().measures;
    const auto& ids = chosen.empty() ? defaultMeasures() : chosen;
    return std::ranges::find(ids, measure.id) != ids.end();
}

void RefilmsPage::tell()
{
    // The grabbing of pictures waits for pages that are still at work.
    setProperty("busy", m_maker->isBusy());
    tellDays();
    tellCues();
    fill();
}

void RefilmsPage::tellDays()
{
    const auto& days = m_maker->days();
    QString faults;
    for (const FilmingDay& day : days) {
        if (!day.fault.isEmpty()) {
            faults += QStringLiteral("%1: %2 ").arg(fromUtf8(day.date), day.fault);
        }
    }
    setState(*m_told, "doubt");
    m_told->setText(faults);
    m_told->setVisible(!faults.isEmpty());
    if (m_maker->isBusy()) {
        m_days->setText(tr("Reading earlier visits, %n to go …", nullptr, m_maker->waitsFor()));
        return;
    }
    const QSignalBlocker blocker(m_next);
    const SessionAbout& about = m_context.session.about();
    m_next->setDate(nextRefilmOf(about.date, about.nextRefilm));
    m_days->setText(days.size() == 1
                        ? tr("One filming day, %1. The next one begins a course.")
                              .arg(longDate(days.back().date))
                        : tr("%1 filming days, %2 to %3. Bars are 95 % errors between days.")
                              .arg(days.size())
                              .arg(longDate(days.front().date), longDate(days.back().date)));
}

void RefilmsPage::takeNext(QDate date)
{
    SessionAbout about = m_context.session.about();
    about.nextRefilm = date.toString(Qt::ISODate).toStdString();
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("set the next re-film"), -2));
}

std::vector<CueSpan> RefilmsPage::cueSpans() const
{
    std::vector<CueSpan> spans;
    const auto& days = m_maker->days();
    for (std::size_t day = 0; day + 1 < days.size(); ++day) {
        const QString name = m_maker->cueWorkedOn(days[day]).text;
        if (!name.isEmpty()) {
            spans.push_back({days[day].date, days[day + 1].date, name});
        }
    }
    return spans;
}

void RefilmsPage::tellCues()
{
    QStringList lines;
    const auto& days = m_maker->days();
    for (const CueSpan& span : cueSpans()) {
        const auto day = std::ranges::find(days, span.from, &FilmingDay::date);
        const auto worked = m_maker->cueWorkedOn(*day);
        lines.append(tr("Worked on from %1 to %2: %3%4")
                         .arg(longDate(span.from), longDate(span.to), worked.text,
                              worked.suggested ? tr(" (suggested by the numbers)") : QString()));
    }
    m_cues->setText(lines.join(u'\n'));
    m_cues->setVisible(!lines.isEmpty());
}

void RefilmsPage::fill()
{
    std::vector<PlotPlan> plans;
    std::vector<RefilmsTable::Row> rows;
    const OwnMeasures own = m_context.session.ownMeasures();
    for (const Measure* measure : own.all()) {
        const PlotPlan plan{measure, courseOf(m_maker->fresh(), measure->id),
                            courseOf(m_maker->fatigued(), measure->id)};
        if ((plan.fresh == nullptr && plan.fatigued == nullptr) || !isShown(*measure)) {
            continue;
        }
        plans.push_back(plan);
        if (plan.fresh != nullptr) {
            rows.push_back({*plan.fresh, false});
        }
        if (plan.fatigued != nullptr) {
            rows.push_back({*plan.fatigued, true});
        }
    }
    std::vector<std::string> dates;
    for (const FilmingDay& day : m_maker->days()) {
        dates.push_back(day.date);
    }
    m_plots->setPlots(plans, cueSpans());
    m_model->setRows(std::move(rows), std::move(dates), own);
    m_table->resizeColumnsToContents();
}

bool RefilmsPage::exportTo(const QString& file)
{
    const auto done =
        replaceFile(file.toStdString(), coursesCsv(m_maker->fresh(), m_maker->fatigued()));
    setState(*m_told, done ? "" : "bad");
    m_told->setText(done ? tr("Written: %1").arg(file) : fromUtf8(done.error().sentence));
    m_told->show();
    return done.has_value();
}

void RefilmsPage::save()
{
    const QString file = QFileDialog::getSaveFileName(
        this, tr("Save the course"), QStringLiteral("refilms.csv"), tr("Tables (*.csv)"));
    if (!file.isEmpty()) {
        exportTo(file);
    }
}

/// Plots are drawn in the colours of the theme.
void RefilmsPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && m_table != nullptr) {
        fill();
    }
}

} // namespace latemile::ui
