// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/main_window.hpp"

#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/sample_library.hpp"
#include "ui/keys/keys_dialog.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"
#include "ui/tour/tour_strip.hpp"
#include "ui/window/caution_line.hpp"
#include "ui/window/closing_question.hpp"
#include "ui/window/notice_line.hpp"
#include "ui/window/page_list.hpp"
#include "ui/window/place_of_folder.hpp"
#include "ui/window/rail.hpp"
#include "ui/window/screening_question.hpp"
#include "ui/window/session_bar.hpp"
#include "ui/window/side_pages.hpp"
#include "ui/window/window_menus.hpp"
#include "ui/window/window_state.hpp"

#include <QCloseEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QListWidget>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {

MainWindow::MainWindow()
    : m_rail(new Rail(m_keys, this)), m_bar(new SessionBar(this)), m_caution(new CautionLine(this)),
      m_notice(new NoticeLine(this)), m_fault(plainLabel({}, this)),
      m_stack(new QStackedWidget(this)), m_pages(*m_stack), m_athletes(new AthletesPage(this)),
      m_side(new SidePages(*m_stack, m_keys, this)), m_tour(new TourStrip(this))
{
    setWindowTitle(tr("Latemile"));
    auto* right = new QVBoxLayout;
    right->setContentsMargins(0, 0, 0, 0);
    right->setSpacing(gridStep);
    right->addWidget(m_bar);
    right->addWidget(m_notice);
    right->addWidget(m_caution);
    right->addWidget(m_fault);
    right->addWidget(m_stack, 1);
    right->addWidget(m_tour);
    m_fault->setWordWrap(true);
    m_fault->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    m_fault->hide();
    setState(*m_fault, "bad");
    auto* whole = new QWidget(this);
    auto* row = new QHBoxLayout(whole);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_rail);
    row->addLayout(right, 1);
    setCentralWidget(whole);
    m_stack->addWidget(m_athletes);
    m_rail->setSessionOpen(false);
    m_rail->setPage(Rail::athletes);
    connectAll();
    buildMenus(*this);
}

void MainWindow::connectAll()
{
    connect(m_rail, &Rail::pageWanted, this, [this](int wanted) {
        if (wanted == Rail::help) {
            showHelp();
        } else {
            showPageAt(wanted - 1);
        }
    });
    connect(m_athletes, &AthletesPage::sessionWanted, this, [this](const QString& folder) {
        if (openSession(folder.toStdString())) {
            showPageAt(m_session->clips().empty() ? 0 : 1);
        }
    });
    connect(m_athletes, &AthletesPage::newSessionWanted, this,
            [this](const QString& folder) { openNewSession(folder.toStdString()); });
    connect(m_athletes, &AthletesPage::screeningWanted, this, [this](const QString& folder) {
        if (openSession(folder.toStdString())) {
            showPageAt(-1);
            askBeforeFilming();
        }
    });
    connect(m_athletes, &AthletesPage::athleteEdited, this, &MainWindow::takeEditedAthlete);
    connect(m_athletes, &AthletesPage::athleteGoing, this, [this](const QString& folder) {
        if (m_session && m_session->folder().parent_path() == folder.toStdString()) {
            dropSession();
        }
        // Remembered when the window closes.
        m_folder = QString::fromStdString(m_athletes->library().string());
    });
    connect(m_athletes, &AthletesPage::tourWanted, this, &MainWindow::startTour);
    connect(m_bar, &SessionBar::undoWanted, this, &MainWindow::undo);
    connect(m_bar, &SessionBar::redoWanted, this, &MainWindow::redo);
    connect(m_tour, &TourStrip::pageWanted, this, &MainWindow::showPage);
    // The practice and the repeat are no part of the session: they have heads of their own.
    connect(m_stack, &QStackedWidget::currentChanged, this,
            [this] { m_bar->setVisible(!m_side->hasOwnMarks()); });
    connect(m_notice, &NoticeLine::recoverWanted, this,
            [this] { answerRecovery(&Saver::recover); });
    connect(m_notice, &NoticeLine::leaveOutWanted, this,
            [this] { answerRecovery(&Saver::leaveOut); });
    connect(m_notice, &NoticeLine::againWanted, this, &MainWindow::reopen);
    connect(m_side, &SidePages::left, this, [this] { showPageAt(m_at); });
    connect(m_side, &SidePages::keysWanted, this, [this] { KeysDialog(m_keys, this).exec(); });
}

MainWindow::~MainWindow()
{
    dropSession();
}

Outcome<void> MainWindow::open(const std::filesystem::path& folder)
{
    const auto place = placeOfFolder(folder);
    if (!place) {
        tellFault(fromUtf8(place.error().sentence));
        return tl::unexpected<Error>(place.error());
    }
    m_folder = QString::fromStdString(folder.string());
    m_athletes->setLibrary(place->library);
    if (place->athlete) {
        m_athletes->athletes().choose(*place->athlete);
    }
    if (place->session) {
        return openSession(*place->session);
    }
    return {};
}

/// The open session shares the athlete's document: it must not write back what it read before.
void MainWindow::takeEditedAthlete(const QString& folder)
{
    const auto file = std::filesystem::path(folder.toStdString()) / "athlete.json";
    std::error_code ignored;
    if (!m_session ||
        !std::filesystem::equivalent(file, athleteFileOf(m_session->folder()), ignored)) {
        return;
    }
    if (auto athlete = readAthlete(file)) {
        m_session->replaceAthlete(std::move(*athlete));
    }
}

Outcome<void> MainWindow::openSession(const std::filesystem::path& folder)
{
    // Opened anew, a session has to let go of its lock first.
    std::error_code ignored;
    if (m_session && std::filesystem::equivalent(folder, m_session->folder(), ignored)) {
        const int at = m_at;
        dropSession();
        m_at = at;
    }
    auto session = SessionDocument::open(folder);
    if (!session) {
        if (!m_session) {
            showPageAt(-1);
        }
        tellFault(fromUtf8(session.error().sentence));
        return tl::unexpected<Error>(session.error());
    }
    takeSession(std::move(*session));
    return {};
}

void MainWindow::reopen()
{
    const auto folder = m_session->folder();
    (void)openSession(folder);
}

void MainWindow::answerRecovery(Outcome<void> (Saver::*answer)())
{
    if (const auto done = (m_session->saver().*answer)(); !done) {
        tellFault(fromUtf8(done.error().sentence));
        return;
    }
    reopen();
    m_athletes->reload();
}

void MainWindow::takeSession(std::unique_ptr<SessionDocument> session)
{
    const int at = std::max(m_at, 0);
    dropSession();
    m_session = std::move(session);
    m_fault->hide();
    m_rail->setSessionOpen(true);
    m_bar->setSession(m_session.get());
    m_caution->setSession(m_session.get());
    m_notice->setSession(m_session.get());
    connect(m_session.get(), &SessionDocument::saveFailed, this, &MainWindow::tellFault);
    connect(m_session.get(), &SessionDocument::clipGoing, this, [this](ClipDocument* clip) {
        m_side->endRepeat();
        if (m_selection.clip() == clip) {
            m_selection.setClip(nullptr);
        }
    });
    connect(m_session.get(), &SessionDocument::clipsChanged, this, &MainWindow::chooseFirstClip);
    chooseFirstClip();
    showPageAt(at);
}

void MainWindow::chooseFirstClip()
{
    m_selection.keepAmong(m_session->clips());
}

void MainWindow::dropSession()
{
    m_stack->setCurrentWidget(m_athletes);
    m_at = -1;
    m_rail->setPage(Rail::athletes);
    m_rail->setSessionOpen(false);
    m_pages.drop();
    m_side->endRepeat();
    m_selection.setClip(nullptr);
    m_bar->setSession(nullptr);
    m_caution->setSession(nullptr);
    m_notice->setSession(nullptr);
    m_session.reset();
}

void MainWindow::showPage(const QString& id)
{
    if (id == QStringLiteral("help")) {
        showHelp();
        return;
    }
    showPageAt(SessionPages::placeOf(id));
}

void MainWindow::showPageAt(int at)
{
    if (!m_session || at < 0) {
        m_at = -1;
        m_rail->setPage(Rail::athletes);
        m_stack->setCurrentWidget(m_athletes);
        m_athletes->athletes().list().setFocus();
        return;
    }
    m_at = at;
    m_rail->setPage(at + 1);
    m_pages.show(at, {*m_session, m_selection, m_keys});
}

QString MainWindow::pageId() const
{
    return SessionPages::idOf(m_at);
}

QWidget* MainWindow::page() const
{
    return m_stack->currentWidget();
}

void MainWindow::setNamesHidden(bool hidden)
{
    m_selection.setNamesHidden(hidden);
    m_bar->setNamesHidden(hidden);
    m_athletes->setNamesHidden(hidden);
}

void MainWindow::openByDialog()
{
    const QString folder =
        QFileDialog::getExistingDirectory(this, tr("Open a library or a session"), m_folder);
    if (!folder.isEmpty()) {
        (void)open(folder.toStdString());
    }
}

void MainWindow::nextClip()
{
    if (m_session) {
        m_selection.goToNextOf(m_session->clips());
    }
}

QUndoStack* MainWindow::history() const
{
    if (m_side->hasOwnMarks()) {
        return m_side->ownHistory();
    }
    return m_session ? &m_session->history() : nullptr;
}

void MainWindow::undo()
{
    if (QUndoStack* steps = history()) {
        steps->undo();
    }
}

void MainWindow::redo()
{
    if (QUndoStack* steps = history()) {
        steps->redo();
    }
}

void MainWindow::tellFault(const QString& sentence)
{
    m_fault->setText(sentence);
    m_fault->show();
}

void MainWindow::openNewSession(const std::filesystem::path& folder)
{
    if (!openSession(folder)) {
        return;
    }
    showPageAt(0);
    if (!m_session->about().screening) {
        askBeforeFilming();
    }
}

void MainWindow::askBeforeFilming()
{
    if (m_session) {
        ui::askBeforeFilming(*m_session, this, [this] { m_athletes->reload(); });
    }
}

void MainWindow::showHelp(const QString& topic)
{
    m_rail->setPage(Rail::help);
    m_side->showHelp(topic);
}

void MainWindow::showPractice()
{
    m_side->showPractice();
}

void MainWindow::showRepeat()
{
    ClipDocument* clip = m_selection.clip();
    if (clip == nullptr || !clip->isOpen()) {
        tellFault(tr("Open a session with a marked clip first: the repeat asks for its instants "
                     "once more."));
        return;
    }
    m_side->showRepeat(*m_session, *clip);
}

void MainWindow::openSample()
{
    m_athletes->addSample();
}

void MainWindow::startTour()
{
    openSample();
    if (m_session) {
        m_tour->begin();
    }
}

/// Reached only by what no page took: Esc leaves the tour.
void MainWindow::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape && m_tour->isVisible()) {
        m_tour->leave();
        return;
    }
    QMainWindow::keyPressEvent(event);
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    if (m_session && !m_session->saver().saveNow() &&
        !closesUnsaved(this, m_session->saver().fault())) {
        event->ignore();
        return;
    }
    rememberWindow(*this, {.folder = m_folder, .page = pageId(), .namesHidden = areNamesHidden()});
    event->accept();
}

void MainWindow::endNow()
{
    rememberWindow(*this, {.folder = m_folder, .page = pageId(), .namesHidden = areNamesHidden()});
    dropSession();
}

} // namespace latemile::ui
