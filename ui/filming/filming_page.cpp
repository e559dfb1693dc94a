// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/filming_page.hpp"

#include "ui/document/commands/add_clip.hpp"
#include "ui/document/commands/remove_clip.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/filming/check_list.hpp"
#include "ui/filming/clip_form.hpp"
#include "ui/filming/clip_import.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QScrollArea>
#include <QSettings>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {

FilmingPage::FilmingPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_tool(new SceneTool(this)), m_player(new Player(this)),
      m_import(new ClipImport(context.session.folder(), this))
{
    setAcceptDrops(true);
    auto* row = new QHBoxLayout;
    row->setSpacing(2 * gridStep);
    row->addWidget(buildPicture(), 1);
    row->addWidget(buildSide());
    auto* head = new QHBoxLayout;
    auto* add = new QPushButton(tr("Add clips…"), this);
    m_remove = new QPushButton(tr("Remove clip"), this);
    head->addWidget(new ClipSwitch(context, this), 1);
    head->addWidget(m_remove);
    head->addWidget(add);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(gridStep);
    column->addLayout(head);
    column->addWidget(buildImport());
    column->addLayout(row, 1);
    connect(add, &QPushButton::clicked, this, &FilmingPage::addByDialog);
    connect(m_remove, &QPushButton::clicked, this, &FilmingPage::removeClip);
    connectAll();
    setClip();
}

FilmingPage::~FilmingPage()
{
    m_view->setTool(nullptr);
}

QWidget* FilmingPage::buildPicture()
{
    auto* side = new QWidget(this);
    m_view = new FrameView(side);
    m_view->setTool(m_tool);
    m_transport = new TransportBar(*m_player, side);
    m_transport->loopButton().hide();
    m_hint = quietLabel({}, side);
    m_hint->setWordWrap(true);
    auto* lines = new QHBoxLayout;
    lines->setSpacing(gridStep / 2);
    const auto add = [&](const QString& name, SceneTool::Line line, const QString& hint) {
        auto* button = new QPushButton(name, side);
        connect(button, &QPushButton::clicked, this, [this, line, hint] {
            m_tool->draw(line);
            m_hint->setText(hint);
        });
        lines->addWidget(button);
    };
    add(tr("Draw scale line"), SceneTool::Line::Scale,
        tr("Press at one end of something of known length at the runner, let go at the other; then "
           "type its length."));
    add(tr("Draw plumb line"), SceneTool::Line::Plumb,
        tr("Press and let go along something upright: a door frame, a pole, a hanging cord."));
    add(tr("Draw ground"), SceneTool::Line::Ground,
        tr("Press where the sole meets the ground under the runner."));
    lines->addStretch();
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 1);
    column->addWidget(m_transport);
    column->addLayout(lines);
    column->addWidget(m_hint);
    return side;
}

QWidget* FilmingPage::buildSide()
{
    auto* inner = new QWidget(this);
    inner->setProperty("rank", "page");
    m_form = new ClipForm(inner);
    m_checks = new CheckList(inner);
    m_facts = quietLabel({}, inner);
    m_facts->setWordWrap(true);
    auto* column = new QVBoxLayout(inner);
    column->setContentsMargins(0, 0, gridStep, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_facts);
    column->addWidget(m_form);
    column->addWidget(rule(inner));
    column->addWidget(headingLabel(tr("What can be trusted"), inner));
    column->addWidget(m_checks);
    column->addStretch();
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFixedWidth(46 * gridStep);
    return scroll;
}

QWidget* FilmingPage::buildImport()
{
    auto* bar = new QWidget(this);
    m_progress = new QProgressBar(bar);
    m_progress->setAccessibleName(tr("Copying"));
    m_stop = new QPushButton(tr("Stop"), bar);
    m_told = plainLabel({}, bar);
    m_told->setWordWrap(true);
    setState(*m_told, "bad");
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_told, 1);
    row->addWidget(m_progress);
    row->addWidget(m_stop);
    for (QWidget* widget : std::initializer_list<QWidget*>{m_progress, m_stop, m_told}) {
        widget->hide();
    }
    return bar;
}

void FilmingPage::connectAll()
{
    connect(&m_context.selection, &Selection::clipChanged, this, &FilmingPage::setClip);
    connect(m_player, &Player::frameShown, m_view, &FrameView::setFrame);
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_tool, &SceneTool::drawn, this,
            [this] { m_hint->setText(tr("Drag the ends to set them to the pixel.")); });
    connect(m_stop, &QPushButton::clicked, m_import, &ClipImport::cancel);
    connect(m_import, &ClipImport::copied, this, &FilmingPage::takeCopied);
    connect(m_import, &ClipImport::progress, this, [this](const QString& name, int percent) {
        m_progress->setFormat(name + QStringLiteral("  %p %"));
        m_progress->setValue(percent);
    });
    connect(m_import, &ClipImport::failed, this, [this](const QString& sentence) {
        m_told->setText(sentence);
        m_told->show();
    });
    connect(m_import, &ClipImport::done, this, [this] {
        m_progress->hide();
        m_stop->hide();
    });
}

void FilmingPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    m_tool->setClip(clip);
    m_form->setClip(clip);
    m_checks->setClip(clip);
    m_transport->setClip(clip);
    m_remove->setEnabled(clip != nullptr);
    m_view->setMessage(clip == nullptr
                           ? tr("Drag video files here, or press \"Add clips\".")
                           : (clip->fault().isEmpty() ? tr("Opening the clip…") : clip->fault()));
    m_player->setClip(clip);
    m_hint->setText(tr("Drag the ends of a line to set them to the pixel; the wheel zooms."));
    if (clip != nullptr) {
        connect(clip, &ClipDocument::opened, this, &FilmingPage::tellFacts, Qt::UniqueConnection);
        connect(clip, &ClipDocument::failed, m_view, &FrameView::setMessage, Qt::UniqueConnection);
        connect(clip, &ClipDocument::sceneChanged, m_view, qOverload<>(&QWidget::update),
                Qt::UniqueConnection);
    }
    tellFacts();
}

void FilmingPage::tellFacts()
{
    const ClipDocument* clip = m_context.selection.clip();
    if (clip == nullptr || !clip->isOpen()) {
        m_facts->clear();
        return;
    }
    const ClipFacts& facts = m_context.selection.clip()->feed().facts();
    QString text = tr("%1: %2 × %3 pixels, %4 frames, %5, %6 frames a real second (%7).")
                       .arg(fromUtf8(clip->clip().file))
                       .arg(facts.width)
                       .arg(facts.height)
                       .arg(facts.frames)
                       .arg(timeText(facts.duration), numberText(facts.captureRate, 1),
                            fromUtf8(facts.captureRateFrom));
    for (const std::string& remark : facts.remarks) {
        text += u'\n' + fromUtf8(remark);
    }
    m_facts->setText(text);
}

void FilmingPage::addByDialog()
{
    QSettings settings;
    const QString key = QStringLiteral("filming/folder");
    const QStringList files = QFileDialog::getOpenFileNames(
        this, tr("Add clips"), settings.value(key).toString(),
        tr("Videos (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.ts);;All files (*)"));
    if (!files.isEmpty()) {
        settings.setValue(key, QFileInfo(files.first()).absolutePath());
        addFiles(files);
    }
}

void FilmingPage::addFiles(const QStringList& files)
{
    m_told->hide();
    m_progress->setValue(0);
    m_progress->show();
    m_stop->show();
    for (const QString& file : files) {
        m_import->add(file.toStdString());
    }
}

void FilmingPage::takeCopied(const QString& belowSession)
{
    SessionDocument& session = m_context.session;
    SessionClip clip;
    clip.file = belowSession.toStdString();
    clip.condition = session.clipOf("fresh") == nullptr
                         ? "fresh"
                         : (session.clipOf("fatigued") == nullptr ? "fatigued" : "other");
    // The camera has rarely moved between two clips of a day: its side and the speed go along.
    if (const auto clips = session.clips(); !clips.empty()) {
        clip.scene = clips.back()->scene();
        clip.scene.captureRate.reset();
        clip.shoes = clips.back()->clip().shoes;
        clip.inclinePercent = clips.back()->clip().inclinePercent;
    }
    session.history().push(new AddClip(session, clip));
    m_context.selection.setClip(session.clips().back());
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

void FilmingPage::dragEnterEvent(QDragEnterEvent* event)
{
    if (event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void FilmingPage::dropEvent(QDropEvent* event)
{
    QStringList files;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            files.append(url.toLocalFile());
        }
    }
    if (!files.isEmpty()) {
        addFiles(files);
    }
}

void FilmingPage::hideEvent(QHideEvent*)
{
    m_player->pause();
}

} // namespace latemile::ui
