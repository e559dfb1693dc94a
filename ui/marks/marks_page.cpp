// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marks_page.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/contact_finding.hpp"
#include "ui/marks/event_row.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/following.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_actions.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/marks/proposing.hpp"
#include "ui/marks/running_line.hpp"
#include "ui/marks/stance_ruler.hpp"
#include "ui/marks/step_panel.hpp"
#include "ui/marks/thumbnails.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QSplitter>
#include <QVBoxLayout>

namespace latemile::ui {

MarksPage::MarksPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_flow(new MarkingFlow(context.selection, this)),
      m_tool(*m_flow), m_player(new Player(this)), m_thumbnails(new Thumbnails(this))
{
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->setHandleWidth(2 * gridStep);
    split->addWidget(buildPicture());
    m_steps = new StepPanel(*m_flow, *m_thumbnails, context.keys, this);
    m_followPanel = new FollowPanel(context.keys, m_steps);
    m_steps->addBelowTable(*m_followPanel);
    m_following = new Following(*m_flow, *m_followPanel, this);
    m_contacts = new ContactFinding(*m_flow, *m_followPanel, context.keys, this);
    m_proposing = new Proposing(*m_flow, *m_followPanel, context.keys, this);
    split->addWidget(m_steps);
    split->setStretchFactor(0, 1);
    split->setStretchFactor(1, 0);
    split->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, gridStep);
    column->setSpacing(gridStep);
    column->addWidget(new ClipSwitch(context, this));
    column->addWidget(split, 1);
    MarksActions(*this, context.keys);
    connectAll();
    connectFollowing();
    connectProposing();
    setPlan();
    setClip();
}

MarksPage::~MarksPage()
{
    m_view->setTool(nullptr);
}

QWidget* MarksPage::buildPicture()
{
    auto* side = new QWidget(this);
    m_view = new FrameView(side);
    m_view->setFocusPolicy(Qt::StrongFocus);
    m_view->installEventFilter(this);
    m_view->setTool(&m_tool);
    m_transport = new TransportBar(*m_player, side);
    m_transport->showKeys(m_context.keys);
    m_transport->setView(*m_view);
    m_ruler = new StanceRuler(*m_player, side);
    m_hint = quietLabel({}, side);
    m_running = plainLabel({}, side);
    // Two lines are kept free: the picture must not jump when a sentence comes in.
    for (QLabel* label : {m_hint, m_running}) {
        label->setWordWrap(true);
        label->setFixedHeight(5 * gridStep);
        label->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    }

    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 1);
    column->addWidget(m_transport);
    column->addWidget(m_hint);
    column->addWidget(m_ruler);
    m_events = new EventRow(*this, m_context.keys);
    column->addWidget(m_events);
    column->addWidget(m_running);
    return side;
}

void MarksPage::connectAll()
{
    Selection& selection = m_context.selection;
    connect(&selection, &Selection::clipChanged, this, &MarksPage::setClip);
    connect(&selection, &Selection::placeChanged, this, &MarksPage::followPlace);
    connect(&m_context.session, &SessionDocument::aboutChanged, this, &MarksPage::setPlan);
    connect(m_steps, &StepPanel::askChanged, this, &MarksPage::setPlan);
    connect(m_steps, &StepPanel::placeWanted, this, &MarksPage::goTo);
    connect(m_steps, &StepPanel::nextWanted, this, [this] { MarksActions::nextCell(*this, 1); });
    connect(m_flow, &MarkingFlow::cellDone, this, [this] { MarksActions::cellDone(*this); });
    connect(&m_context.keys, &Keys::changed, this, &MarksPage::tellHint);
    connect(m_player, &Player::frameShown, this, [this](const Frame& frame) {
        m_tool.setFrame(frame.number);
        m_flow->setShown(frame.number);
        m_view->setFrame(frame);
        tellWarning();
    });
    connect(m_player, &Player::frameChanged, this, &MarksPage::frameMoved);
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_player, &Player::playingChanged, this, [this] {
        m_tool.setPlacing(!m_player->isPlaying());
        frameMoved();
    });
    connect(m_flow, &MarkingFlow::changed, this, [this] {
        m_view->update();
        tellHint();
    });
    connect(m_ruler, &StanceRuler::stepPressed, this, [this](StepNumber step) {
        m_context.selection.setPlace(instantAt(*m_flow->clip(), m_player->frame())
                                         .value_or(StepInstant{step, Instant::Contact}));
    });
}

void MarksPage::connectFollowing()
{
    connect(m_contacts, &ContactFinding::placeWanted, this, &MarksPage::goTo);
    connect(m_followPanel, &FollowPanel::frameWanted, this, [this](FrameNumber frame) {
        m_player->pause();
        m_player->goTo(frame);
    });
    connect(m_flow, &MarkingFlow::stepStaysAt, this, &MarksPage::goTo);
    connect(m_ruler, &StanceRuler::acceptWanted, m_contacts, &ContactFinding::accept);
    connect(m_ruler, &StanceRuler::rejectWanted, m_contacts, &ContactFinding::reject);
    connect(m_steps, &StepPanel::acceptStepWanted, this,
            [this] { MarksActions::acceptStep(*this); });
}

void MarksPage::connectProposing()
{
    connect(m_contacts, &ContactFinding::settled, m_proposing, &Proposing::contactsSettled);
    connect(m_contacts, &ContactFinding::stopped, m_proposing, &Proposing::contactsStopped);
    connect(m_proposing, &Proposing::contactsWanted, m_contacts, &ContactFinding::findAlong);
    connect(m_proposing, &Proposing::runnerChanged, m_contacts, &ContactFinding::forget);
    connect(m_proposing, &Proposing::legsExchanged, m_following, &Following::forgetPaths);
    connect(m_proposing, &Proposing::boxAsked, this, [this](bool asked) {
        m_player->pause();
        m_view->setTool(asked ? static_cast<PictureTool*>(&m_boxTool) : &m_tool);
        if (asked) {
            m_boxTool.begin(m_view->pictureSize());
            m_view->setFocus();
        }
        m_view->update();
    });
    connect(&m_boxTool, &BoxTool::changed, m_view, qOverload<>(&QWidget::update));
    connect(&m_boxTool, &BoxTool::taken, m_proposing, &Proposing::useBox);
    connect(m_flow, &MarkingFlow::rowRefused, this,
            [this](const MarkKey& key, double sePx, double boundPx) {
                m_proposing->tellRowRefused(key, sePx, boundPx);
            });
    connect(m_flow, &MarkingFlow::eventsRefused, m_proposing, &Proposing::tellEventsRefused);
}

void MarksPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    if (ClipDocument* before = m_flow->clip()) {
        disconnect(before, nullptr, this, nullptr);
    }
    m_thumbnails->setClip(clip);
    m_flow->setClip(clip);
    m_following->setClip(clip);
    m_contacts->letGo();
    m_proposing->setClip(clip);
    m_ruler->setClip(clip);
    m_transport->setClip(clip);
    m_steps->renew();
    m_view->setMessage(clip == nullptr
                           ? tr("This session has no clip yet. Add one on the Filming page.")
                           : (clip->fault().isEmpty() ? tr("Opening the clip…") : clip->fault()));
    m_player->setClip(clip);
    if (clip != nullptr) {
        connect(clip, &ClipDocument::failed, m_view, &FrameView::setMessage);
        connect(clip, &ClipDocument::stancesChanged, this, [this] {
            m_steps->renew();
            followPlace();
            tellMarks();
        });
        connect(clip, &ClipDocument::markChanged, this, &MarksPage::tellMarks);
        connect(clip, &ClipDocument::sceneChanged, this, &MarksPage::tellMarks);
        connect(clip, &ClipDocument::readingsChanged, this, &MarksPage::tellReadings);
    }
    tellMarks();
    tellReadings();
}

void MarksPage::setPlan()
{
    m_flow->setPlan(m_steps->asksForAll() ? AskedLandmarks::everything()
                                          : AskedLandmarks(m_context.session.about().measures,
                                                           m_context.session.ownMeasures()));
    m_steps->renew();
    tellReadings();
}

void MarksPage::goTo(const StepInstant& place)
{
    const auto frame = m_flow->frameOf(place);
    if (!frame) {
        hint(tr("Step %1 has no %2 yet: mark its contact and toe-off first.")
                 .arg(place.step.value)
                 .arg(wordFor(place.instant)));
        return;
    }
    m_player->pause();
    m_player->goTo(*frame);
    m_context.selection.setPlace(place);
    m_flow->beginGesture();
}

/// The table, the ruler and the picture show the cell at hand, wherever it was chosen.
void MarksPage::followPlace()
{
    const auto& place = m_context.selection.place();
    m_ruler->setChosenStep(place ? std::optional(place->step) : std::nullopt);
    m_steps->setPlace(place);
    const auto frame = place ? m_flow->frameOf(*place) : std::nullopt;
    if (frame && isVisible() && !m_player->isPlaying() && *frame != m_player->frame()) {
        m_player->goTo(*frame);
    }
    tellHint();
    tellReadings();
}

void MarksPage::frameMoved()
{
    ClipDocument* clip = m_flow->clip();
    if (clip == nullptr || !clip->isOpen() || m_player->isPlaying()) {
        return;
    }
    const auto& place = m_context.selection.place();
    if (place && m_flow->frameOf(*place) == m_player->frame()) {
        return;
    }
    m_context.selection.setPlace(instantAt(*clip, m_player->frame()));
}

void MarksPage::hint(const QString& sentence)
{
    m_hint->setText(sentence);
}

void MarksPage::tellMarks()
{
    m_steps->tellWork();
    m_ruler->setFaults(m_flow->rhythmFaults());
    m_events->tellDue(*m_flow);
    tellHint();
    tellWarning();
}

void MarksPage::tellHint()
{
    m_hint->setText(hintText(*m_flow, m_context.keys));
}

void MarksPage::tellWarning()
{
    m_steps->setWarning(warningText(*m_flow, m_player->frame(), m_context.keys));
}

void MarksPage::tellReadings()
{
    ClipDocument* clip = m_flow->clip();
    if (clip == nullptr) {
        m_running->clear();
        tellWarning();
        return;
    }
    const auto& place = m_context.selection.place();
    m_running->setText(runningLine(*clip, place ? std::optional(place->step) : std::nullopt,
                                   m_context.session.about().measures));
    tellWarning();
}

bool MarksPage::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_view && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        return arrowPressed(key->key(), key->modifiers());
    }
    return QWidget::eventFilter(watched, event);
}

bool MarksPage::arrowPressed(int key, Qt::KeyboardModifiers modifiers)
{
    const int across = key == Qt::Key_Left ? -1 : (key == Qt::Key_Right ? 1 : 0);
    const int down = key == Qt::Key_Up ? -1 : (key == Qt::Key_Down ? 1 : 0);
    if (across == 0 && down == 0) {
        return false;
    }
    if (m_proposing->isAskingBox()) {
        modifiers.testFlag(Qt::ShiftModifier) ? m_boxTool.widen(across, down)
                                              : m_boxTool.move(across, down);
        return true;
    }
    if (m_flow->chosen() || m_flow->pending()) {
        const bool fine = modifiers.testFlag(Qt::ShiftModifier);
        const double pixels = fine ? 0.1 : (modifiers.testFlag(Qt::AltModifier) ? 10.0 : 1.0);
        m_flow->nudge(across * pixels, down * pixels);
        return true;
    }
    if (across != 0) {
        m_player->step(across);
        return true;
    }
    return false;
}

void MarksPage::hideEvent(QHideEvent*)
{
    m_player->pause();
}

} // namespace latemile::ui
