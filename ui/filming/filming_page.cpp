// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/filming_page.hpp"

#include "core/filming/next_visit.hpp"
#include "ui/document/commands/add_clip.hpp"
#include "ui/document/commands/remove_clip.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/filming/check_list.hpp"
#include "ui/filming/clip_form.hpp"
#include "ui/filming/clip_import.hpp"
#include "ui/filming/clip_opening.hpp"
#include "ui/filming/clip_part.hpp"
#include "ui/filming/clip_words.hpp"
#include "ui/filming/filming_actions.hpp"
#include "ui/filming/ghost_controls.hpp"
#include "ui/filming/last_visit_ghost.hpp"
#include "ui/filming/recent_files.hpp"
#include "ui/filming/remark_list.hpp"
#include "ui/filming/scene_loan.hpp"
#include "ui/filming/scene_part.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/filming/set_up_view.hpp"
#include "ui/filming/video_files.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/filming/work_side.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

const auto copying = QStringLiteral("copying");
const auto comparing = QStringLiteral("comparing");

} // namespace

FilmingPage::FilmingPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_tool(new SceneTool(this)), m_player(new Player(this)),
      m_import(new ClipImport(context.session.folder(), this)),
      m_loan(new SceneLoan(context, this)), m_ghost(new LastVisitGhost(this)),
      m_work(new WorkBar(this)), m_told(plainLabel({}, this)),
      m_invitation(
          quietLabel(tr("Drag video files onto this page, or press \"Add clips\"."), this)),
      m_stack(new QStackedWidget(this))
{
    setAcceptDrops(true);
    m_told->setWordWrap(true);
    m_told->hide();
    setState(*m_told, "bad");
    m_setUp = new SetUpView(context.session, m_stack);
    m_stack->addWidget(buildWork());
    m_stack->addWidget(m_setUp);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addWidget(buildHead());
    column->addWidget(m_told);
    column->addWidget(m_work);
    column->addWidget(m_invitation);
    column->addWidget(m_stack, 1);
    m_opening = new ClipOpening(*m_view, *m_work, this);
    connectAll();
    connectWork();
    FilmingActions(*this, context.keys);
    setClip();
}

FilmingPage::~FilmingPage()
{
    m_view->setTool(nullptr);
}

QWidget* FilmingPage::buildHead()
{
    auto* head = new QWidget(this);
    m_setUpButton = new QPushButton(tr("Set-up card"), head);
    m_setUpButton->setCheckable(true);
    m_remove = new QPushButton(tr("Remove clip"), head);
    auto* recent = new QToolButton(head);
    recent->setText(tr("Recent files"));
    recent->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(recent);
    menu->setToolTipsVisible(true);
    recent->setMenu(menu);
    m_link = linkChoice(head);
    auto* add = new QPushButton(tr("Add clips…"), head);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep);
    row->addWidget(new ClipSwitch(m_context, head), 1);
    row->addWidget(m_setUpButton);
    row->addWidget(m_remove);
    row->addWidget(recent);
    row->addWidget(m_link);
    row->addWidget(add);
    connect(m_setUpButton, &QPushButton::toggled, this, &FilmingPage::showSetUp);
    connect(m_remove, &QPushButton::clicked, this, &FilmingPage::removeClip);
    connect(add, &QPushButton::clicked, this, &FilmingPage::addByDialog);
    connect(menu, &QMenu::aboutToShow, this, [menu] { fillWithRecentFiles(*menu); });
    connect(menu, &QMenu::triggered, this,
            [this](const QAction* action) { addFiles({action->data().toString()}); });
    return head;
}

QWidget* FilmingPage::buildWork()
{
    auto* work = new QWidget(m_stack);
    auto* row = new QHBoxLayout(work);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * gridStep);
    row->addWidget(buildPicture(), 1);
    row->addWidget(buildSide());
    return work;
}

QWidget* FilmingPage::buildPicture()
{
    auto* side = new QWidget(m_stack);
    m_view = new FrameView(side);
    m_view->setTool(m_tool);
    m_transport = new TransportBar(*m_player, side);
    m_transport->loopButton().hide();
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 1);
    column->addWidget(m_transport);
    return side;
}

QWidget* FilmingPage::buildSide()
{
    m_side = new WorkSide(m_stack);
    m_clipPart = new ClipPart(m_side);
    m_form = new ClipForm(m_side);
    m_scene = new ScenePart(*m_tool, *m_loan, *m_ghost, m_side);
    m_checks = new CheckList(m_side);
    m_side->addPart(tr("Clip"), m_clipPart);
    m_side->addPart(tr("Run"), m_form);
    m_side->addPart(tr("Scene"), m_scene);
    m_side->addPart(tr("Trust"), m_checks);
    return m_side;
}

void FilmingPage::connectAll()
{
    connect(&m_context.selection, &Selection::clipChanged, this, &FilmingPage::setClip);
    connect(m_player, &Player::frameShown, m_view, &FrameView::setFrame);
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_tool, &SceneTool::chosenChanged, m_view, qOverload<>(&QWidget::update));
    connect(m_clipPart, &ClipPart::changed, this, &FilmingPage::tellSigns);
    connect(m_form, &ClipForm::changed, this, &FilmingPage::tellSigns);
    connect(m_checks, &CheckList::changed, this, &FilmingPage::tellSigns);
    connect(&m_scene->ghost(), &GhostControls::wanted, this, &FilmingPage::askGhost);
}

void FilmingPage::connectWork()
{
    connect(m_work, &WorkBar::stopWanted, this, &FilmingPage::stopWork);
    connect(m_import, &ClipImport::copied, this, &FilmingPage::takeCopied);
    connect(m_import, &ClipImport::progress, this, [this](const QString& name, int percent) {
        m_work->setWork(copying, tr("Copying %1").arg(name), percent);
    });
    connect(m_import, &ClipImport::failed, this, &FilmingPage::tellFault);
    connect(m_import, &ClipImport::done, this, [this] { m_work->endWork(copying); });
    connect(m_loan, &SceneLoan::progress, this, [this](int percent) {
        m_work->setWork(comparing, tr("Comparing the backgrounds"), percent);
    });
    connect(m_loan, &SceneLoan::changed, this, [this] {
        if (!m_loan->isBusy()) {
            m_work->endWork(comparing);
        }
    });
}

void FilmingPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    m_tool->setClip(clip);
    m_clipPart->setClip(clip);
    m_form->setClip(clip);
    m_scene->setClip(clip);
    m_checks->setClip(clip);
    m_transport->setClip(clip);
    m_remove->setEnabled(clip != nullptr);
    m_setUpButton->setEnabled(clip != nullptr);
    m_invitation->setVisible(clip == nullptr);
    m_opening->setClip(clip);
    if (clip != nullptr) {
        listenTo(*clip);
    }
    m_player->setClip(clip);
    // Without a clip there is nothing to do but to prepare for one.
    m_setUpButton->setChecked(clip == nullptr);
    showSetUp(clip == nullptr);
    askGhost();
    tellSigns();
}

void FilmingPage::listenTo(ClipDocument& clip)
{
    connect(&clip, &ClipDocument::sceneChanged, m_view, qOverload<>(&QWidget::update),
            Qt::UniqueConnection);
    connect(&clip, &ClipDocument::detailsChanged, this, &FilmingPage::askGhost,
            Qt::UniqueConnection);
    connect(&clip, &ClipDocument::failed, this, &FilmingPage::tellSigns, Qt::UniqueConnection);
    connect(&clip, &ClipDocument::opened, this, &FilmingPage::tellSigns, Qt::UniqueConnection);
}

bool FilmingPage::showsSetUp() const
{
    return m_stack->currentWidget() == m_setUp;
}

void FilmingPage::showSetUp(bool shown)
{
    m_player->pause();
    m_stack->setCurrentIndex(shown ? 1 : 0);
}

void FilmingPage::tellSigns()
{
    const ClipDocument* clip = m_context.selection.clip();
    const bool there = clip != nullptr;
    const auto sign = [](bool good) {
        return signFor(good ? Check::State::Good : Check::State::Doubt);
    };
    // Of a clip that cannot be shown, and as long as it is being opened, nothing is in order.
    const bool isOpen = there && clip->isOpen();
    const bool isLost = there && !clip->fault().isEmpty();
    m_side->setSign(Clip, isLost   ? signFor(Check::State::Bad)
                          : isOpen ? sign(!m_clipPart->hasQuestion())
                                   : QString());
    m_side->setSign(Run, there ? sign(m_form->isComplete()) : QString());
    const Scene scene = there ? clip->scene() : Scene();
    m_side->setSign(SceneLines,
                    there ? sign((scene.scale || scene.plane) && scene.plumb) : QString());
    m_side->setSign(Trust, isOpen ? signFor(m_checks->worst()) : QString());
}

void FilmingPage::tellFault(const QString& sentence)
{
    m_told->setText(breakable(sentence));
    m_told->show();
}

void FilmingPage::askGhost()
{
    const ClipDocument* clip = m_context.selection.clip();
    if (clip != nullptr && m_scene->ghost().box().isChecked()) {
        m_ghost->ask(m_context.session.folder(), clip->clip());
    } else {
        m_ghost->forget();
        m_scene->ghost().tell();
    }
}

void FilmingPage::addByDialog()
{
    if (const QStringList files = askForVideos(this); !files.isEmpty()) {
        addFiles(files);
    }
}

void FilmingPage::addFiles(const QStringList& files)
{
    if (m_context.session.isReadOnly()) {
        tellFault(
            tr("No clip can be added now: the line above says why this session is read only."));
        return;
    }
    m_told->hide();
    rememberFiles(files);
    m_work->setWork(copying, tr("Copying"), 0);
    const auto how = m_link->isChecked() ? ClipImport::How::Link : ClipImport::How::Copy;
    for (const QString& file : files) {
        m_import->add(file.toStdString(), how);
    }
}

void FilmingPage::takeCopied(const QString& belowSession)
{
    SessionDocument& session = m_context.session;
    const auto clips = session.clips();
    const auto there = std::ranges::find(clips, belowSession.toStdString(),
                                         [](const ClipDocument* one) { return one->clip().file; });
    if (there != clips.end()) { // brought once more: it is shown, not described twice
        m_context.selection.setClip(*there);
        return;
    }
    session.history().push(new AddClip(
        session, firstSaid(session.folder(), session.session(), belowSession.toStdString())));
    ClipDocument* clip = session.clips().back();
    m_context.selection.setClip(clip);
    m_side->setPart(Clip);
    // Once, whichever clip is looked at by then.
    connect(
        clip, &ClipDocument::opened, m_loan,
        [this, clip] {
            m_clipPart->answerFromMemory(*clip);
            m_loan->offer(*clip, SceneLoan::When::Added);
        },
        Qt::SingleShotConnection);
}

void FilmingPage::removeClip()
{
    const auto clips = m_context.session.clips();
    const auto at = std::ranges::find(clips, m_context.selection.clip());
    if (at != clips.end()) {
        m_context.session.history().push(new RemoveClip(
            m_context.session, static_cast<std::size_t>(std::distance(clips.begin(), at))));
    }
}

void FilmingPage::stopWork(const QString& id)
{
    if (id == copying) {
        m_import->cancel();
    } else if (id == comparing) {
        m_loan->stop();
    } else {
        m_opening->stop(id);
    }
}

void FilmingPage::dragEnterEvent(QDragEnterEvent* event)
{
    if (event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void FilmingPage::dropEvent(QDropEvent* event)
{
    const QStringList files = filesIn(*event->mimeData());
    if (files.isEmpty()) {
        tellFault(tr("Nothing was added: drag video files here, not folders or pictures of a web "
                     "page."));
    } else {
        addFiles(files);
    }
}

void FilmingPage::hideEvent(QHideEvent*)
{
    m_player->pause();
}

void FilmingPage::keyPressEvent(QKeyEvent* event)
{
    if (!FilmingActions::nudge(*this, *event)) {
        QWidget::keyPressEvent(event);
    }
}

} // namespace latemile::ui
