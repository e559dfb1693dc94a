// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/athletes_page.hpp"

#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/sample_library.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLineEdit>
#include <QListWidget>
#include <QLocale>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

QString dateText(const QString& iso)
{
    const QDate date = QDate::fromString(iso, Qt::ISODate);
    return date.isValid() ? QLocale().toString(date, QLocale::LongFormat) : iso;
}

} // namespace

AthletesPage::AthletesPage(QWidget* parent)
    : QWidget(parent), m_stack(new QStackedWidget(this)), m_told(plainLabel({}, this))
{
    auto* whole = new QWidget(this);
    auto* row = new QHBoxLayout(whole);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(3 * gridStep);
    row->addWidget(buildList());
    row->addWidget(buildAthlete(), 1);
    m_stack->addWidget(whole);
    m_stack->addWidget(buildEmpty());
    m_told->setWordWrap(true);
    setState(*m_told, "bad");
    m_told->hide();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(m_told);
    column->addWidget(m_stack, 1);
}

QWidget* AthletesPage::buildList()
{
    auto* side = new QWidget(this);
    m_search = new QLineEdit(side);
    m_search->setPlaceholderText(tr("Search"));
    m_search->setAccessibleName(tr("Search athletes"));
    m_search->setClearButtonEnabled(true);
    m_list = new QListWidget(side);
    m_list->setAccessibleName(tr("Athletes"));
    auto* add = new QPushButton(tr("New athlete…"), side);
    connect(m_search, &QLineEdit::textChanged, this, &AthletesPage::fillList);
    connect(m_list, &QListWidget::currentRowChanged, this, &AthletesPage::fillSessions);
    connect(add, &QPushButton::clicked, this, &AthletesPage::addNewAthlete);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_search);
    column->addWidget(m_list, 1);
    column->addWidget(add);
    side->setFixedWidth(36 * gridStep);
    return side;
}

QWidget* AthletesPage::buildAthlete()
{
    auto* side = new QWidget(this);
    m_name = titleLabel({}, side);
    m_facts = quietLabel({}, side);
    m_facts->setWordWrap(true);
    m_table = new QTableWidget(side);
    m_table->setColumnCount(3);
    m_table->setHorizontalHeaderLabels({tr("Session"), tr("Clips"), tr("To do")});
    m_table->verticalHeader()->hide();
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setShowGrid(false);
    m_table->setAccessibleName(tr("Sessions"));
    connect(m_table, &QTableWidget::itemActivated, this, &AthletesPage::openSession);
    auto* open = new QPushButton(tr("Open session"), side);
    open->setProperty("rank", "main");
    auto* today = new QPushButton(tr("New session today"), side);
    auto* edit = new QPushButton(tr("Edit athlete…"), side);
    connect(open, &QPushButton::clicked, this, &AthletesPage::openSession);
    connect(today, &QPushButton::clicked, this, &AthletesPage::addSession);
    connect(edit, &QPushButton::clicked, this, &AthletesPage::editAthlete);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(gridStep / 2);
    buttons->addWidget(open);
    buttons->addWidget(today);
    buttons->addStretch();
    buttons->addWidget(edit);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_name);
    column->addWidget(m_facts);
    column->addWidget(m_table, 1);
    column->addLayout(buttons);
    return side;
}

QWidget* AthletesPage::buildEmpty()
{
    auto* page = new QWidget(this);
    auto* sample = new QPushButton(tr("Open the sample athlete"), page);
    sample->setProperty("rank", "main");
    auto* add = new QPushButton(tr("New athlete…"), page);
    connect(sample, &QPushButton::clicked, this, &AthletesPage::addSample);
    connect(add, &QPushButton::clicked, this, &AthletesPage::addNewAthlete);
    auto* column = new QVBoxLayout(page);
    column->setSpacing(2 * gridStep);
    column->addStretch();
    column->addWidget(titleLabel(tr("No athletes yet"), page), 0, Qt::AlignHCenter);
    column->addWidget(quietLabel(tr("The sample athlete is a fictional runner with three monthly "
                                    "visits, filmed and marked."),
                                 page),
                      0, Qt::AlignHCenter);
    column->addWidget(sample, 0, Qt::AlignHCenter);
    column->addWidget(add, 0, Qt::AlignHCenter);
    column->addStretch();
    return page;
}

void AthletesPage::setLibrary(const std::filesystem::path& library)
{
    m_library = library;
    reload();
}

void AthletesPage::reload()
{
    const AthleteEntry* was = chosen();
    const auto folder = was == nullptr ? std::filesystem::path() : was->folder;
    m_athletes = athletesOf(m_library);
    m_stack->setCurrentIndex(m_athletes.empty() ? 1 : 0);
    fillList();
    if (!folder.empty()) {
        chooseAthlete(folder);
    }
}

void AthletesPage::setNamesHidden(bool hidden)
{
    m_namesHidden = hidden;
    reload();
}

QString AthletesPage::nameOf(const Athlete& athlete) const
{
    return fromUtf8(m_namesHidden || athlete.name.empty() ? athlete.code : athlete.name);
}

void AthletesPage::fillList()
{
    m_list->clear();
    for (std::size_t at = 0; at < m_athletes.size(); ++at) {
        const QString name = nameOf(m_athletes[at].athlete);
        if (name.contains(m_search->text().trimmed(), Qt::CaseInsensitive)) {
            auto* item = new QListWidgetItem(name, m_list);
            item->setData(Qt::UserRole, static_cast<int>(at));
        }
    }
    m_list->setCurrentRow(m_list->count() > 0 ? 0 : -1);
    fillSessions();
}

const AthleteEntry* AthletesPage::chosen() const
{
    const QListWidgetItem* item = m_list->currentItem();
    const int at = item == nullptr ? -1 : item->data(Qt::UserRole).toInt();
    return at < 0 || at >= static_cast<int>(m_athletes.size())
               ? nullptr
               : &m_athletes[static_cast<std::size_t>(at)];
}

void AthletesPage::chooseAthlete(const std::filesystem::path& folder)
{
    for (int row = 0; row < m_list->count(); ++row) {
        const int at = m_list->item(row)->data(Qt::UserRole).toInt();
        if (m_athletes[static_cast<std::size_t>(at)].folder == folder) {
            m_list->setCurrentRow(row);
        }
    }
}

void AthletesPage::fillSessions()
{
    const AthleteEntry* entry = chosen();
    m_table->parentWidget()->setEnabled(entry != nullptr);
    m_sessions = entry == nullptr ? std::vector<SessionEntry>() : sessionsOf(entry->folder);
    m_name->setText(entry == nullptr ? tr("Nobody found") : nameOf(entry->athlete));
    QStringList facts;
    if (entry != nullptr) {
        const auto add = [&](const QString& name, const std::optional<double>& value,
                             const QString& unit) {
            if (value) {
                facts.append(name + u' ' + numberText(*value, 0) + u' ' + unit);
            }
        };
        add(tr("height"), entry->athlete.heightCm, tr("cm"));
        add(tr("leg"), entry->athlete.legLengthCm, tr("cm"));
        add(tr("mass"), entry->athlete.massKg, tr("kg"));
    }
    m_facts->setText(facts.join(QStringLiteral(" · ")));
    m_table->setRowCount(static_cast<int>(m_sessions.size()));
    for (int row = 0; row < m_table->rowCount(); ++row) {
        const SessionEntry& session = m_sessions[static_cast<std::size_t>(row)];
        m_table->setItem(row, 0, new QTableWidgetItem(dateText(session.date)));
        m_table->setItem(row, 1, new QTableWidgetItem(session.clips));
        m_table->setItem(row, 2, new QTableWidgetItem(session.toDo));
    }
    if (m_table->rowCount() > 0) {
        m_table->selectRow(0);
    }
}

void AthletesPage::openSession()
{
    const int row = m_table->currentRow();
    if (row < 0 || row >= static_cast<int>(m_sessions.size())) {
        tell(tr("There is no session yet: begin one with \"New session today\"."));
        return;
    }
    const auto& folder = m_sessions[static_cast<std::size_t>(row)].folder;
    emit sessionWanted(QString::fromStdString(folder.string()));
}

void AthletesPage::addNewAthlete()
{
    std::filesystem::path made;
    AthleteDialog dialog(
        {}, true,
        [&](const Athlete& athlete) -> Outcome<void> {
            ASSIGN_OR_RETURN(made, addAthlete(m_library, athlete));
            return {};
        },
        this);
    if (dialog.exec() == QDialog::Accepted) {
        m_search->clear();
        reload();
        chooseAthlete(made);
    }
}

void AthletesPage::editAthlete()
{
    const AthleteEntry* entry = chosen();
    if (entry == nullptr) {
        return;
    }
    const auto folder = entry->folder;
    AthleteDialog dialog(
        entry->athlete, false,
        [&](const Athlete& athlete) { return writeAthlete(athlete, folder / "athlete.json"); },
        this);
    if (dialog.exec() == QDialog::Accepted) {
        reload();
        emit athleteEdited(QString::fromStdString(folder.string()));
    }
}

void AthletesPage::addSession()
{
    const AthleteEntry* entry = chosen();
    if (entry == nullptr) {
        return;
    }
    if (const auto folder = sessionOfToday(entry->folder)) {
        emit sessionWanted(QString::fromStdString(folder->string()));
    } else {
        tell(fromUtf8(folder.error().sentence));
    }
}

void AthletesPage::addSample()
{
    if (const auto folder = addSampleAthlete(m_library)) {
        reload();
        emit sessionWanted(QString::fromStdString(folder->string()));
    } else {
        tell(fromUtf8(folder.error().sentence));
    }
}

void AthletesPage::tell(const QString& sentence)
{
    m_told->setText(sentence);
    m_told->show();
}

void AthletesPage::showEvent(QShowEvent*)
{
    m_told->hide();
    if (!m_library.empty()) {
        reload();
    }
}

} // namespace latemile::ui
