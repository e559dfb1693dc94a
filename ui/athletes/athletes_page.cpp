// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/athletes_page.hpp"

#include "core/store/remove_athlete.hpp"
#include "ui/athletes/athlete_dialog.hpp"
#include "ui/athletes/consent_dialog.hpp"
#include "ui/athletes/forget_athlete.hpp"
#include "ui/athletes/sample_library.hpp"
#include "ui/athletes/session_table.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QDate>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QListWidget>
#include <QMessageBox>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

QString consentText(const Athlete& athlete)
{
    const QString missing = whyNoConsentToday(athlete);
    if (!missing.isEmpty()) {
        return missing;
    }
    return athlete.consent->until.empty()
               ? AthletesPage::tr("Consent noted.")
               : AthletesPage::tr("Consent until %1.").arg(fromUtf8(athlete.consent->until));
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
    m_search->setPlaceholderText(tr("Search by name or code"));
    m_search->setAccessibleName(tr("Search athletes"));
    m_search->setClearButtonEnabled(true);
    m_order = new QComboBox(side);
    m_order->addItem(tr("By name"));
    m_order->addItem(tr("By next re-film"));
    m_order->setAccessibleName(tr("Order of the athletes"));
    m_list = new QListWidget(side);
    m_list->setAccessibleName(tr("Athletes"));
    m_list->setSpacing(1);
    auto* add = new QPushButton(tr("New athlete…"), side);
    connect(m_search, &QLineEdit::textChanged, this, &AthletesPage::fillList);
    connect(m_order, &QComboBox::currentIndexChanged, this, &AthletesPage::reload);
    connect(m_list, &QListWidget::currentRowChanged, this, &AthletesPage::fillSessions);
    connect(add, &QPushButton::clicked, this, &AthletesPage::addNewAthlete);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_search);
    column->addWidget(m_order);
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
    auto* edit = new QPushButton(tr("Edit athlete…"), row);
    auto* remove = new QPushButton(tr("Delete athlete…"), row);
    remove->setObjectName(QStringLiteral("delete athlete"));
    connect(open, &QPushButton::clicked, this, &AthletesPage::openSession);
    connect(ask, &QPushButton::clicked, this, &AthletesPage::askBeforeFilming);
    connect(today, &QPushButton::clicked, this, &AthletesPage::addSession);
    connect(edit, &QPushButton::clicked, this, &AthletesPage::editAthlete);
    connect(remove, &QPushButton::clicked, this, &AthletesPage::askToDelete);
    auto* buttons = new QHBoxLayout(row);
    buttons->setContentsMargins(0, 0, 0, 0);
    buttons->setSpacing(gridStep / 2);
    buttons->addWidget(open);
    buttons->addWidget(ask);
    buttons->addWidget(today);
    buttons->addStretch();
    buttons->addWidget(edit);
    buttons->addWidget(remove);
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
    const AthleteEntry* was = chosen();
    const auto folder = was == nullptr ? std::filesystem::path() : was->folder;
    m_athletes = athletesOf(m_library);
    if (m_order->currentIndex() == 1) {
        // Who was never filmed has no day to be due on: last.
        std::ranges::stable_sort(m_athletes, {}, [](const AthleteEntry& entry) {
            return entry.nextRefilm.isValid() ? entry.nextRefilm : QDate(9999, 1, 1);
        });
    }
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
    const QString wanted = m_search->text().trimmed();
    const QDate today = QDate::currentDate();
    m_list->clear();
    for (std::size_t at = 0; at < m_athletes.size(); ++at) {
        const AthleteEntry& entry = m_athletes[at];
        const QString name = nameOf(entry.athlete);
        if (name.contains(wanted, Qt::CaseInsensitive) ||
            fromUtf8(entry.athlete.code).contains(wanted, Qt::CaseInsensitive)) {
            auto* item =
                new QListWidgetItem(name + u'\n' + dueText(entry.nextRefilm, today), m_list);
            item->setData(Qt::UserRole, static_cast<int>(at));
            item->setToolTip(name.toHtmlEscaped());
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

void AthletesPage::fillFacts(const AthleteEntry* entry)
{
    m_name->setText(entry == nullptr ? tr("Nobody found") : nameOf(entry->athlete));
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
    const AthleteEntry* entry = chosen();
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
            m_search->clear();
            reload();
            chooseAthlete(made);
            return {};
        },
        this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void AthletesPage::editAthlete()
{
    const AthleteEntry* entry = chosen();
    if (entry == nullptr) {
        return;
    }
    auto* dialog = new AthleteDialog(
        entry->athlete, false,
        [this, folder = entry->folder](const Athlete& athlete) -> Outcome<void> {
            RETURN_IF_ERROR(writeAthlete(athlete, folder / "athlete.json"));
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
    const AthleteEntry* entry = chosen();
    if (entry == nullptr) {
        return;
    }
    auto* question = new QMessageBox(this);
    question->setAttribute(Qt::WA_DeleteOnClose);
    question->setIcon(QMessageBox::Warning);
    question->setWindowTitle(tr("Delete athlete"));
    question->setTextFormat(Qt::PlainText);
    question->setText(tr("Delete %1?").arg(nameOf(entry->athlete)));
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

void AthletesPage::addSession()
{
    const AthleteEntry* entry = chosen();
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
