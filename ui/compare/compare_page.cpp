// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_page.hpp"

#include "core/sheet/still_choice.hpp"
#include "ui/compare/compare_side.hpp"
#include "ui/compare/comparison_table.hpp"
#include "ui/compare/step_phase.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QSlider>
#include <QSplitter>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <utility>

namespace latemile::ui {
namespace {

constexpr int phaseParts = 100;
/// A step of a third of a second is watched a quarter as fast.
constexpr double secondsAStep = 1.4;

} // namespace

ComparePage::ComparePage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_fresh(new CompareSide(this)),
      m_fatigued(new CompareSide(this))
{
    auto* pictures = new QWidget(this);
    auto* pair = new QHBoxLayout;
    pair->setSpacing(2 * gridStep);
    pair->addWidget(m_fresh, 1);
    pair->addWidget(m_fatigued, 1);
    auto* above = new QVBoxLayout(pictures);
    above->setContentsMargins(0, 0, 0, 0);
    above->setSpacing(gridStep);
    above->addLayout(pair, 1);
    above->addWidget(buildLocks());
    auto* split = new QSplitter(Qt::Vertical, this);
    split->addWidget(pictures);
    split->addWidget(buildTable());
    split->setSizes({420, 300});
    split->setStretchFactor(0, 1);
    split->setStretchFactor(1, 1);
    split->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->addWidget(split);

    m_tick.setInterval(16);
    connect(&m_tick, &QTimer::timeout, this, [this] {
        const double turns = static_cast<double>(m_clock.elapsed()) / 1000.0 / secondsAStep;
        m_phase->setValue(static_cast<int>(std::fmod(turns, 1.0) * phaseParts));
    });
    for (CompareSide* side : {m_fresh, m_fatigued}) {
        connect(side, &CompareSide::stepChosen, this, &ComparePage::showBoth);
    }
    connect(&context.session, &SessionDocument::clipsChanged, this, &ComparePage::setClips);
    setClips();
}

QWidget* ComparePage::buildLocks()
{
    auto* bar = new QWidget(this);
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    m_instants = new QButtonGroup(this);
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        auto* button = new QToolButton(bar);
        button->setText(capital(wordFor(instant)));
        button->setCheckable(true);
        m_instants->addButton(button, static_cast<int>(instant));
        row->addWidget(button);
    }
    m_instants->button(static_cast<int>(Instant::Contact))->setChecked(true);
    m_phase = new QSlider(Qt::Horizontal, bar);
    m_phase->setRange(0, phaseParts);
    m_phase->setAccessibleName(tr("Share of the step"));
    m_phase->setToolTip(tr("Share of the step: both sides are shown at like moments"));
    m_play = new QToolButton(bar);
    m_play->setText(tr("Play in step"));
    m_play->setCheckable(true);
    m_ghost = new QCheckBox(tr("Ghost of the other"), bar);
    row->addSpacing(gridStep);
    row->addWidget(m_play);
    row->addWidget(m_phase, 1);
    row->addSpacing(gridStep);
    row->addWidget(m_ghost);
    m_ghost->setChecked(true);
    connect(m_instants, &QButtonGroup::idClicked, this, [this] {
        setPlaying(false);
        showBoth();
    });
    connect(m_phase, &QSlider::valueChanged, this, &ComparePage::showPhase);
    connect(m_play, &QToolButton::toggled, this, &ComparePage::setPlaying);
    connect(m_ghost, &QCheckBox::toggled, this, &ComparePage::tellGhosts);
    return bar;
}

QWidget* ComparePage::buildTable()
{
    auto* side = new QWidget(this);
    m_model = new ComparisonTable(this);
    m_table = new QTableView(side);
    m_table->setModel(m_model);
    m_table->setShowGrid(false);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setAccessibleName(tr("Comparison"));
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setHighlightSections(false);
    m_table->verticalHeader()->setDefaultSectionSize(4 * gridStep);
    m_told = plainLabel({}, side);
    m_told->setWordWrap(true);
    m_told->setMinimumHeight(20);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &ComparePage::tellRow);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, gridStep, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_told);
    column->addWidget(m_table, 1);
    return side;
}

void ComparePage::setClips()
{
    m_fresh->setClip(m_context.session.clipOf("fresh"));
    m_fatigued->setClip(m_context.session.clipOf("fatigued"));
    for (ClipDocument* clip : m_context.session.clips()) {
        disconnect(clip, nullptr, this, nullptr);
        connect(clip, &ClipDocument::readingsChanged, this, &ComparePage::compareNow);
        connect(clip, &ClipDocument::detailsChanged, this, &ComparePage::setClips);
    }
    m_chosenOnce = false;
    compareNow();
    showBoth();
}

/// The step that stands for each clip, the same foot on both sides.
void ComparePage::chooseAlikeSteps()
{
    if (m_chosenOnce) {
        return;
    }
    for (CompareSide* side : {m_fresh, m_fatigued}) {
        ClipDocument* clip = side->clip();
        const Foot near = clip->isNear(Foot::Left) ? Foot::Left : Foot::Right;
        if (const auto step = typicalStep(*clip->readings(), clip->marking(), clip->index(), near,
                                          m_context.session.about().measures)) {
            side->chooseStep(step->number);
        }
    }
    m_chosenOnce = true;
    showBoth();
}

void ComparePage::compareNow()
{
    const ClipDocument* fresh = m_fresh->clip();
    const ClipDocument* fatigued = m_fatigued->clip();
    QString told;
    if (fresh == nullptr || fatigued == nullptr) {
        told = tr("A comparison needs one fresh and one fatigued clip.");
    } else if (!fresh->readings() || !fatigued->readings()) {
        told =
            fresh->readingsFault().isEmpty() ? fatigued->readingsFault() : fresh->readingsFault();
    } else {
        Comparison comparison = compare(*fresh->readings(), *fatigued->readings());
        // What could be compared first; the rest stays in sight with its reason.
        std::ranges::stable_partition(
            comparison.rows, [](const ComparisonRow& row) { return row.change.has_value(); });
        m_model->setComparison(std::move(comparison));
        m_table->resizeColumnsToContents();
        chooseAlikeSteps();
        if (m_model->rowCount() == 0) {
            told = tr("Nothing to compare yet: mark and confirm steps in both clips.");
        }
    }
    if (told.isEmpty()) {
        m_table->selectRow(0);
    } else {
        m_told->setText(told);
    }
}

/// A row's words in full: the column has room for their beginning.
void ComparePage::tellRow(const QModelIndex& index)
{
    const auto& rows = m_model->comparison().rows;
    if (index.isValid() && index.row() < static_cast<int>(rows.size())) {
        const ComparisonRow& row = rows[static_cast<std::size_t>(index.row())];
        m_told->setText(fromUtf8(row.sentence) + u' ' + fromUtf8(row.reason));
        setProperty("helpTopic", fromUtf8(row.measure));
    }
}

void ComparePage::showInstant(Instant instant)
{
    for (CompareSide* side : {m_fresh, m_fatigued}) {
        const Step* step = side->step();
        side->showFrame(step == nullptr ? std::nullopt
                                        : frameOf(*step, instant, side->clip()->index()));
    }
    tellGhosts();
}

void ComparePage::showPhase()
{
    if (QAbstractButton* button = m_instants->checkedButton()) {
        m_instants->setExclusive(false);
        button->setChecked(false);
        m_instants->setExclusive(true);
    }
    for (CompareSide* side : {m_fresh, m_fatigued}) {
        const Step* step = side->step();
        side->showFrame(step == nullptr ? std::nullopt
                                        : frameAtPhase(*step, m_phase->value() / double{phaseParts},
                                                       side->clip()->index()));
    }
    tellGhosts();
}

void ComparePage::showBoth()
{
    if (m_instants->checkedId() >= 0) {
        showInstant(static_cast<Instant>(m_instants->checkedId()));
    } else {
        showPhase();
    }
}

void ComparePage::tellGhosts()
{
    const auto shown = [](const CompareSide& side) -> std::optional<CompareTool::Shown> {
        return side.clip() != nullptr && side.frame()
                   ? std::optional(CompareTool::Shown{side.clip(), *side.frame()})
                   : std::nullopt;
    };
    const bool on = m_ghost->isChecked();
    m_fresh->setGhost(on ? shown(*m_fatigued) : std::nullopt);
    m_fatigued->setGhost(on ? shown(*m_fresh) : std::nullopt);
}

void ComparePage::setPlaying(bool playing)
{
    m_play->setChecked(playing);
    if (playing) {
        m_clock.start();
        m_tick.start();
    } else {
        m_tick.stop();
    }
}

void ComparePage::hideEvent(QHideEvent*)
{
    setPlaying(false);
}

} // namespace latemile::ui
