// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/athletes_page.hpp"

#include "core/store/remove_athlete.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/athlete_list.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/forget_athlete.hpp"
#include "ui/athletes/record_work.hpp"
#include "ui/athletes/sample_library.hpp"
#include "ui/athletes/session_table.hpp"
#include "ui/page/elided_label.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QHBoxLayout>
#include <QMessageBox>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace latemile::ui {
AthletesPage::AthletesPage(QWidget* parent)
    : QWidget(parent), m_stack(new QStackedWidget(this)), m_athletes(new AthleteList(this)),
      m_told(plainLabel({}, this)), m_records(new RecordWork(this))
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
    m_told->hide();
    connectRecords();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(m_told);
    column->addWidget(m_stack, 1);
}

QWidget* AthletesPage::buildList()
{
    auto* side = new QWidget(this);
    auto* add = new QPushButton(tr("New athlete…"), side);
    auto* takeIn = new QPushButton(tr("Take in…"), side);
    takeIn->setToolTip(tr("Bring in a record that was handed over as a zip file"));
    connect(m_athletes, &AthleteList::chosenChanged, this, &AthletesPage::fillSessions);
    connect(add, &QPushButton::clicked, this, &AthletesPage::addNewAthlete);
    connect(takeIn, &QPushButton::clicked, this, [this] { m_records->askToTakeIn(m_library); });
    auto* below = new QHBoxLayout;
    below->setSpacing(gridStep / 2);
    below->addWidget(add, 1);
    below->addWidget(takeIn, 1);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_athletes, 1);
    column->addLayout(below);
    side->setFixedWidth(36 * gridStep);
    return side;
}

QWidget* AthletesPage::buildAthlete()
{
    auto* side = new QWidget(this);
    m_name = new ElidedLabel(side);
    m_name->setProperty("rank", "title");
    m_facts = quietLabel({}, side);
    m_facts->setWordWrap(true);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_name);
    column->addWidget(m_facts);
    m_table = new SessionTable(side);
    connect(m_table, &QTableWidget::itemActivated, this, &AthletesPage::openSession);
    column->addWidget(m_table, 1);
    column->addWidget(buildButtons(side));
    return side;
}

QWidget* AthletesPage::buildButtons(QWidget* side)
{
    auto* row = new QWidget(side);
    auto* open = new QPushButton(tr("Open session"), row);
    open->setProperty("rank", "main");
    auto* ask = new QPushButton(tr("Before filming…"), row);
    auto* today = new QPushButton(tr("New session today"), row);
    auto* edit = new QPushButton(tr("Edit…"), row);
    edit->setAccessibleName(tr("Edit athlete"));
    auto* over = new QPushButton(tr("Hand over…"), row);
    over->setToolTip(tr("The athlete's whole record as one zip file"));
    over->setAccessibleName(tr("Hand over the athlete's record"));
    auto* remove = new QPushButton(tr("Delete…"), row);
    remove->setAccessibleName(tr("Delete athlete"));
    remove->setToolTip(tr("The athlete with every file"));
    remove->setObjectName(QStringLiteral("delete athlete"));
    connect(open, &QPushButton::clicked, this, &AthletesPage::openSession);
    connect(ask, &QPushButton::clicked, this, &AthletesPage::askBeforeFilming);
    connect(today, &QPushButton::clicked, this, &AthletesPage::addSession);
    connect(edit, &QPushButton::clicked, this, &AthletesPage::editAthlete);
    connect(over, &QPushButton::clicked, this, &AthletesPage::askToHandOver);
    connect(remove, &QPushButton::clicked, this, &AthletesPage::askToDelete);
    auto* buttons = new QHBoxLayout(row);
    buttons->setContentsMargins(0, 0, 0, 0);
    buttons->setSpacing(gridStep / 2);
    buttons->addWidget(open);
    buttons->addWidget(ask);
    buttons->addWidget(today);
    buttons->addStretch();
    for (QPushButton* button : {edit, over, remove}) {
        buttons->addWidget(button);
    }
    return row;
}

QWidget* AthletesPage::buildEmpty()
{
    auto* page = new QWidget(this);
    auto* sample = new QPushButton(tr("Open the sample athlete"), page);
    sample->setProperty("rank", "main");
    auto* tour = new QPushButton(tr("Take the short tour"), page);
    auto* add = new QPushButton(tr("New athlete…"), page);
    connect(tour, &QPushButton::clicked, this, &AthletesPage::tourWanted);
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
    column->addWidget(tour, 0, Qt::AlignHCenter);
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
    m_athletes->show(m_library);
    m_stack->setCurrentIndex(m_athletes->isEmpty() ? 1 : 0);
}

void AthletesPage::setNamesHidden(bool hidden)
{
    m_athletes->setNamesHidden(hidden);
    reload();
}

void AthletesPage::fillFacts(const AthleteEntry* entry)
{
    m_name->setWhole(entry == nullptr ? tr("Nobody found") : m_athletes->nameOf(entry->athlete));
    if (entry == nullptr) {
        m_facts->clear();
        return;
    }
    QStringList facts;
    const auto add = [&](const QString& name, const std::optional<double>& value,
                         const QString& unit) {
        if (value) {
            facts.append(name + u' ' + numberText(*value, 0) + u' ' + unit);
        }
    };
    facts.append(tr("code %1").arg(fromUtf8(entry->athlete.code)));
    if (entry->athlete.minor) {
        facts.append(tr("minor"));
    }
    add(tr("height"), entry->athlete.heightCm, tr("cm"));
    add(tr("leg"), entry->athlete.legLengthCm, tr("cm"));
    add(tr("mass"), entry->athlete.massKg, tr("kg"));
    m_facts->setText(facts.join(QStringLiteral(" · ")) + u'\n' + consentText(entry->athlete) +
                     u' ' + capital(dueText(entry->nextRefilm, QDate::currentDate())) + u'.');
}

void AthletesPage::fillSessions()
{
    const AthleteEntry* entry = m_athletes->chosen();
    m_table->parentWidget()->setEnabled(entry != nullptr);
    fillFacts(entry);
    m_table->setSessions(entry == nullptr ? std::vector<SessionEntry>()
                                          : sessionsOf(entry->folder));
}

const SessionEntry* AthletesPage::chosenSession()
{
    const SessionEntry* session = m_table->chosen();
    if (session == nullptr) {
        tell(tr("There is no session yet: begin one with \"New session today\"."));
    }
    return session;
}

void AthletesPage::openSession()
{
    if (const SessionEntry* session = chosenSession()) {
        emit sessionWanted(QString::fromStdString(session->folder.string()));
    }
}

void AthletesPage::askBeforeFilming()
{
    if (const SessionEntry* session = chosenSession()) {
        emit screeningWanted(QString::fromStdString(session->folder.string()));
    }
}

void AthletesPage::addNewAthlete()
{
    auto* dialog = new AthleteDialog(
        {}, true,
        [this](const Athlete& athlete) -> Outcome<void> {
            ASSIGN_OR_RETURN(const auto made, addAthlete(m_library, athlete));
            m_athletes->clearSearch();
            reload();
            m_athletes->choose(made);
            return {};
        },
        this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void AthletesPage::editAthlete()
{
    const AthleteEntry* entry = m_athletes->chosen();
    if (entry == nullptr) {
        return;
    }
    auto* dialog = new AthleteDialog(
        entry->athlete, false,
        [this, folder = entry->folder,
         before = entry->athlete](const Athlete& athlete) -> Outcome<void> {
            if (auto kept = keepAthlete(athlete, before, folder / "athlete.json"); !kept) {
                reload(); // the list shows what stands there now
                return kept;
            }
            reload();
            emit athleteEdited(QString::fromStdString(folder.string()));
            return {};
        },
        this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void AthletesPage::askToDelete()
{
    const AthleteEntry* entry = m_athletes->chosen();
    if (entry == nullptr) {
        return;
    }
    auto* question = new QMessageBox(this);
    question->setAttribute(Qt::WA_DeleteOnClose);
    question->setIcon(QMessageBox::Warning);
    question->setWindowTitle(tr("Delete athlete"));
    question->setTextFormat(Qt::PlainText);
    question->setText(tr("Delete %1?").arg(m_athletes->nameOf(entry->athlete)));
    question->setInformativeText(wordsForRemoval(entry->folder));
    auto* remove = question->addButton(tr("Delete for good"), QMessageBox::DestructiveRole);
    question->setDefaultButton(question->addButton(QMessageBox::Cancel));
    connect(remove, &QAbstractButton::clicked, this,
            [this, folder = entry->folder] { deleteAthlete(folder); });
    question->open();
}

void AthletesPage::deleteAthlete(const std::filesystem::path& folder)
{
    const auto athlete = readAthlete(folder / "athlete.json").value_or(Athlete{});
    emit athleteGoing(QString::fromStdString(folder.string()));
    if (const auto done = removeAthlete(folder); !done) {
        tell(fromUtf8(done.error().sentence));
    } else {
        forgetInSettings(athlete, folder);
    }
    reload();
}

void AthletesPage::connectRecords()
{
    connect(m_records, &RecordWork::failed, this, [this](const QString& why) { tell(why); });
    connect(m_records, &RecordWork::handedOver, this, [this](const QString& zip) {
        tell(tr("The whole record is in %1. It holds pictures and health notes: give it to the "
                "athlete alone.")
                 .arg(zip),
             "");
    });
    connect(m_records, &RecordWork::tookIn, this, [this](const QString& folder) {
        m_athletes->clearSearch();
        reload();
        m_athletes->choose(folder.toStdString());
        tell(tr("The record is sound and stands in the library."), "");
    });
}

/// An open session's edits must be in its document first, and nobody may write meanwhile.
void AthletesPage::askToHandOver()
{
    if (const AthleteEntry* entry = m_athletes->chosen()) {
        emit athleteGoing(QString::fromStdString(entry->folder.string()));
        m_records->askToHandOver(entry->folder);
    }
}

void AthletesPage::addSession()
{
    const AthleteEntry* entry = m_athletes->chosen();
    if (entry == nullptr) {
        return;
    }
    if (const auto folder = sessionOfToday(entry->folder)) {
        emit newSessionWanted(QString::fromStdString(folder->string()));
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

void AthletesPage::tell(const QString& sentence, const char* state)
{
    setState(*m_told, state);
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
