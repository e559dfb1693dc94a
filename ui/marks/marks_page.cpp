// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marks_page.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_actions.hpp"
#include "ui/marks/running_line.hpp"
#include "ui/marks/stance_ruler.hpp"
#include "ui/marks/step_delegate.hpp"
#include "ui/marks/step_model.hpp"
#include "ui/marks/thumbnails.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

namespace latemile::ui {

MarksPage::MarksPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_flow(new MarkingFlow(context.selection, this)),
      m_tool(*m_flow), m_player(new Player(this)), m_thumbnails(new Thumbnails(this))
{
    auto* split = new QSplitter(Qt::Horizontal, this);
    split->addWidget(buildPicture());
    split->addWidget(buildTable());
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
    m_ruler = new StanceRuler(*m_player, side);
    m_hint = quietLabel({}, side);
    m_running = plainLabel({}, side);
    m_warning = plainLabel({}, side);
    for (QLabel* label : {m_hint, m_running, m_warning}) {
        label->setWordWrap(true);
        label->setMinimumWidth(0);
    }
    m_hint->setMinimumHeight(20);
    // Two lines are kept free: the picture must not jump when a reading comes in.
    m_running->setMinimumHeight(42);
    m_running->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    setState(*m_warning, "doubt");
    m_warning->hide();

    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_view, 1);
    column->addWidget(m_transport);
    column->addWidget(m_hint);
    column->addWidget(m_ruler);
    column->addWidget(buildEventRow());
    column->addWidget(m_running);
    column->addWidget(m_warning);
    return side;
}

QWidget* MarksPage::buildEventRow()
{
    auto* row = new QWidget(this);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(gridStep / 2);
    const auto add = [&](const QString& text, const char* id, auto act) {
        auto* button = new QPushButton(
            QStringLiteral("%1   %2").arg(
                text,
                m_context.keys.of(QString::fromLatin1(id)).toString(QKeySequence::NativeText)),
            row);
        button->setToolTip(Keys::nameOf(QString::fromLatin1(id)));
        button->setAccessibleName(Keys::nameOf(QString::fromLatin1(id)));
        connect(button, &QPushButton::clicked, this, act);
        line->addWidget(button);
    };
    add(tr("Left contact"), "marks.left_contact",
        [this] { MarksActions::contact(*this, Foot::Left); });
    add(tr("toe-off"), "marks.left_toe_off", [this] { MarksActions::toeOff(*this, Foot::Left); });
    line->addSpacing(gridStep);
    add(tr("Right contact"), "marks.right_contact",
        [this] { MarksActions::contact(*this, Foot::Right); });
    add(tr("toe-off"), "marks.right_toe_off", [this] { MarksActions::toeOff(*this, Foot::Right); });
    line->addStretch();
    return row;
}

QWidget* MarksPage::buildTable()
{
    auto* side = new QWidget(this);
    m_progress = headingLabel({}, side);
    m_ask = new QComboBox(side);
    m_ask->addItem(tr("Ask for what the chosen measures need"));
    m_ask->addItem(tr("Ask for all nine landmarks"));
    m_ask->setAccessibleName(tr("Landmarks asked for"));
    m_ask->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_ask->setMinimumContentsLength(12);
    m_model = new StepModel(*m_flow, this);
    m_table = new QTableView(side);
    m_table->setModel(m_model);
    m_table->setItemDelegate(new StepDelegate(*m_flow, *m_model, *m_thumbnails, m_table));
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setShowGrid(false);
    m_table->setAccessibleName(tr("Step table"));
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setDefaultSectionSize(
        m_table->itemDelegate()->sizeHint({}, {}).height());
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->verticalHeader()->setMinimumWidth(7 * gridStep);
    m_table->setMinimumWidth(40 * gridStep);

    auto* next = new QPushButton(tr("Next cell   %1")
                                     .arg(m_context.keys.of(QStringLiteral("marks.next_cell"))
                                              .toString(QKeySequence::NativeText)),
                                 side);
    next->setProperty("rank", "main");
    auto* confirm = new QPushButton(tr("Confirm   %1")
                                        .arg(m_context.keys.of(QStringLiteral("marks.accept"))
                                                 .toString(QKeySequence::NativeText)),
                                    side);
    auto* unseen = new QPushButton(tr("Not visible   %1")
                                       .arg(m_context.keys.of(QStringLiteral("marks.not_visible"))
                                                .toString(QKeySequence::NativeText)),
                                   side);
    connect(next, &QPushButton::clicked, this, [this] { MarksActions::nextCell(*this, 1); });
    connect(confirm, &QPushButton::clicked, m_flow, [this] { m_flow->confirm(); });
    connect(unseen, &QPushButton::clicked, m_flow, &MarkingFlow::sayNotVisible);
    auto* row = new QHBoxLayout;
    row->setSpacing(gridStep / 2);
    row->addWidget(next);
    row->addWidget(confirm);
    row->addWidget(unseen);
    row->addStretch();

    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_progress);
    column->addWidget(m_ask);
    column->addWidget(m_table, 1);
    column->addLayout(row);
    return side;
}

void MarksPage::connectAll()
{
    Selection& selection = m_context.selection;
    connect(&selection, &Selection::clipChanged, this, &MarksPage::setClip);
    connect(&selection, &Selection::placeChanged, this, &MarksPage::followPlace);
    connect(&m_context.session, &SessionDocument::aboutChanged, this, &MarksPage::setPlan);
    connect(m_ask, &QComboBox::currentIndexChanged, this, &MarksPage::setPlan);
    connect(m_player, &Player::frameShown, this, [this](const Frame& frame) {
        m_tool.setFrame(frame.number);
        m_view->setFrame(frame);
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
    connect(m_thumbnails, &Thumbnails::ready, m_table->viewport(), qOverload<>(&QWidget::update));
    connect(m_ruler, &StanceRuler::stepPressed, this, [this](StepNumber step) {
        m_context.selection.setPlace(instantAt(*m_flow->clip(), m_player->frame())
                                         .value_or(StepInstant{step, Instant::Contact}));
    });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& index) {
                if (index.isValid() && m_model->placeOf(index) != m_context.selection.place()) {
                    goTo(m_model->placeOf(index));
                }
            });
}

void MarksPage::setClip()
{
    ClipDocument* clip = m_context.selection.clip();
    if (ClipDocument* before = m_flow->clip()) {
        disconnect(before, nullptr, this, nullptr);
    }
    m_thumbnails->setClip(clip);
    m_flow->setClip(clip);
    m_ruler->setClip(clip);
    m_transport->setClip(clip);
    m_model->renew();
    m_view->setMessage(clip == nullptr
                           ? tr("This session has no clip yet. Add one on the Filming page.")
                           : (clip->fault().isEmpty() ? tr("Opening the clip…") : clip->fault()));
    m_player->setClip(clip);
    if (clip != nullptr) {
        connect(clip, &ClipDocument::failed, m_view, &FrameView::setMessage);
        connect(clip, &ClipDocument::stancesChanged, this, [this] {
            m_model->renew();
            followPlace();
            tellWork();
        });
        connect(clip, &ClipDocument::markChanged, this, &MarksPage::tellWork);
        connect(clip, &ClipDocument::readingsChanged, this, &MarksPage::tellReadings);
    }
    tellWork();
    tellReadings();
}

void MarksPage::setPlan()
{
    m_flow->setPlan(m_ask->currentIndex() == 1 ? CellPlan::everything()
                                               : CellPlan(m_context.session.about().measures));
    m_model->renew();
    tellWork();
    tellReadings();
}

void MarksPage::goTo(const StepInstant& place)
{
    const auto frame = m_flow->frameOf(place);
    if (!frame) {
        m_hint->setText(tr("Step %1 has no %2 yet: mark its contact and toe-off first.")
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
    const QModelIndex index = place ? m_model->indexOf(*place) : QModelIndex();
    m_table->selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect);
    if (index.isValid()) {
        m_table->scrollTo(index);
    }
    const auto frame = place ? m_flow->frameOf(*place) : std::nullopt;
    if (frame && isVisible() && *frame != m_player->frame()) {
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

void MarksPage::tellWork()
{
    m_model->refresh();
    int asked = 0;
    const int steps = m_model->rowCount();
    const int open = static_cast<int>(m_flow->open().size());
    for (int row = 0; row < steps; ++row) {
        for (int column = 0; column < m_model->columnCount(); ++column) {
            const StepInstant place = m_model->placeOf(m_model->index(row, column));
            asked += m_flow->frameOf(place) && !m_flow->asked(place).empty() ? 1 : 0;
        }
    }
    m_progress->setText(
        steps == 0 ? tr("No steps yet")
                   : tr("Steps: %1, cells to do: %2 of %3").arg(steps).arg(open).arg(asked));
    tellHint();
}

void MarksPage::tellHint()
{
    const auto& place = m_context.selection.place();
    const auto pending = m_flow->pending();
    QString text;
    if (const auto& chosen = m_flow->chosen()) {
        text = tr("%1: drag it or nudge with the arrow keys; Delete takes it away, Esc lets go.")
                   .arg(capital(wordFor(chosen->landmark)));
    } else if (place && pending) {
        text = tr("Step %1 %2: click the %3, or move the crosshair with the arrow keys and press "
                  "Enter.")
                   .arg(place->step.value)
                   .arg(wordFor(place->instant), wordFor(*pending));
    } else if (place) {
        text = tr("Step %1 %2: %3.")
                   .arg(place->step.value)
                   .arg(wordFor(place->instant), stateText(*m_flow, *place));
    } else if (m_model->rowCount() == 0) {
        text = tr("Step to the first frame with a foot on the ground and press the key of that "
                  "foot's contact.");
    } else {
        text = tr("Arrow keys step frames; N goes to the next cell that wants work.");
    }
    m_hint->setText(text);
}

void MarksPage::tellReadings()
{
    ClipDocument* clip = m_flow->clip();
    if (clip == nullptr) {
        m_running->clear();
        m_warning->hide();
        return;
    }
    const auto& place = m_context.selection.place();
    m_running->setText(runningLine(*clip, place ? std::optional(place->step) : std::nullopt,
                                   m_context.session.about().measures));
    const QString warning = markingWarning(*clip);
    m_warning->setText(warning);
    m_warning->setVisible(!warning.isEmpty());
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
