// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_page.hpp"

#include "core/measures/asked_landmarks.hpp"
#include "core/sheet/still_choice.hpp"
#include "ui/compare/athlete_clips.hpp"
#include "ui/compare/compare_locks.hpp"
#include "ui/compare/compare_side.hpp"
#include "ui/compare/comparison_panel.hpp"
#include "ui/compare/step_phase.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QSet>
#include <QSplitter>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <set>
#include <utility>

namespace latemile::ui {
namespace {

/// The clip's own ink; where another side has it already, dashed and hollow, and then grey: two
/// fresh clips must be told apart too.
FigureInk inkBeside(const std::string& condition, const std::vector<FigureInk>& taken)
{
    FigureInk ink = inkOf(condition);
    const auto isTaken = [&taken](const FigureInk& one) {
        return std::ranges::find(taken, one) != taken.end();
    };
    if (isTaken(ink)) {
        ink.dashed = !ink.dashed;
        ink.hollow = ink.dashed;
    }
    return isTaken(ink) ? inkOf({}) : ink;
}

} // namespace

ComparePage::ComparePage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context),
      m_clips(new AthleteClips(context.session, this)), m_sides{new CompareSide(this),
                                                                new CompareSide(this),
                                                                new CompareSide(this)},
      m_locks(new CompareLocks(this))
{
    auto* split = new QSplitter(Qt::Vertical, this);
    split->addWidget(buildPictures());
    m_panel = new ComparisonPanel(this);
    split->addWidget(m_panel);
    connect(m_panel, &ComparisonPanel::measureChosen, this,
            [this](const QString& id) { setProperty("helpTopic", id); });
    split->setSizes({430, 290});
    split->setStretchFactor(0, 1);
    split->setStretchFactor(1, 1);
    split->setChildrenCollapsible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    column->addWidget(split);

    for (CompareSide* side : m_sides) {
        connect(side, &CompareSide::clipChosen, this, &ComparePage::takeClips);
        connect(side, &CompareSide::stepChosen, this, &ComparePage::showMoment);
        connect(side, &CompareSide::movedByHand, this, [this, side] { followSight(*side); });
    }
    connect(m_locks, &CompareLocks::changed, this, &ComparePage::showMoment);
    connect(m_locks, &CompareLocks::ghostChanged, this, &ComparePage::tellGhosts);
    connect(m_clips, &AthleteClips::changed, this, &ComparePage::offerClips);
    connect(&context.session, &SessionDocument::aboutChanged, this, &ComparePage::compareNow);
    connect(&context.session, &SessionDocument::clipGoing, this, &ComparePage::letGoOf);
    connect(m_clips, &AthleteClips::clipGoing, this, &ComparePage::letGoOf);
    offerClips();
}

QWidget* ComparePage::buildPictures()
{
    auto* pictures = new QWidget(this);
    auto* pair = new QHBoxLayout;
    pair->setSpacing(2 * gridStep);
    for (CompareSide* side : m_sides) {
        pair->addWidget(side, 1);
    }
    m_sides[2]->hide();
    m_third = new QToolButton(pictures);
    m_third->setText(tr("Third clip"));
    m_third->setToolTip(tr("Set a third clip against the first"));
    m_third->setCheckable(true);
    connect(m_third, &QToolButton::toggled, this, &ComparePage::setThirdShown);
    m_measures = new QComboBox(pictures);
    m_measures->addItem(tr("Main measures"));
    m_measures->addItem(tr("All measures"));
    m_measures->setAccessibleName(tr("Measures compared"));
    connect(m_measures, &QComboBox::currentIndexChanged, this, &ComparePage::compareNow);
    auto* below = new QHBoxLayout;
    below->setSpacing(gridStep);
    below->addWidget(m_locks, 1);
    below->addWidget(m_third);
    below->addWidget(m_measures);
    auto* column = new QVBoxLayout(pictures);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addLayout(pair, 1);
    column->addLayout(below);
    return pictures;
}

const ComparisonTable& ComparePage::comparison() const
{
    return m_panel->model();
}

QString ComparePage::told() const
{
    return m_panel->told();
}

std::vector<CompareSide*> ComparePage::used() const
{
    std::vector<CompareSide*> sides{m_sides[0], m_sides[1]};
    if (m_third->isChecked()) {
        sides.push_back(m_sides[2]);
    }
    return sides;
}

void ComparePage::setThirdShown(bool shown)
{
    m_third->setChecked(shown);
    m_sides[2]->setVisible(shown);
    takeClips();
}

/// What the coach chose stays; where nothing is chosen yet, this day's fresh and fatigued clip, and
/// beside them the first that is neither.
void ComparePage::offerClips()
{
    std::set<QString> taken;
    for (CompareSide* side : m_sides) {
        side->offer(*m_clips);
        taken.insert(side->chosen());
    }
    const auto first = [&](auto fits) {
        const auto found = std::ranges::find_if(m_clips->entries(), [&](const auto& entry) {
            return !taken.contains(entry.key) && fits(entry);
        });
        return found == m_clips->entries().end() ? QString() : found->key;
    };
    const auto chooseIfNone = [&](CompareSide& side, auto fits) {
        if (side.chosen().isEmpty()) {
            const QString key = first(fits);
            side.choose(key);
            taken.insert(key);
        }
    };
    using Entry = AthleteClips::Entry;
    chooseIfNone(*m_sides[0], [](const Entry& e) { return e.ofThisDay && e.condition == "fresh"; });
    chooseIfNone(*m_sides[1],
                 [](const Entry& e) { return e.ofThisDay && e.condition == "fatigued"; });
    chooseIfNone(*m_sides[2], [](const Entry&) { return true; });
    takeClips();
}

/// Before a clip goes, nothing here may name it any more.
void ComparePage::letGoOf(ClipDocument* clip)
{
    for (CompareSide* side : m_sides) {
        if (side->clip() == clip) {
            side->setClip(nullptr, {});
        }
    }
    std::erase(m_stepsChosenFor, clip);
    tellGhosts();
}

void ComparePage::takeClips()
{
    std::vector<FigureInk> inks;
    std::set<QString> keys;
    for (CompareSide* side : m_sides) {
        if (side->clip() != nullptr) {
            disconnect(side->clip(), nullptr, this, nullptr);
        }
    }
    for (CompareSide* side : used()) {
        ClipDocument* clip = m_clips->clip(side->chosen());
        inks.push_back(inkBeside(clip == nullptr ? std::string() : clip->clip().condition, inks));
        side->setClip(clip, inks.back());
        keys.insert(side->chosen());
        if (clip != nullptr) {
            connect(clip, &ClipDocument::readingsChanged, this, &ComparePage::compareNow,
                    Qt::UniqueConnection);
            connect(clip, &ClipDocument::opened, this, &ComparePage::showMoment,
                    Qt::UniqueConnection);
        }
    }
    if (!m_third->isChecked()) {
        m_sides[2]->setClip(nullptr, {});
    }
    tellGhosts();
    m_clips->keepOnly(keys);
    compareNow();
    showMoment();
}

/// The step that stands for each clip, the same foot on all sides; chosen once a clip, so that the
/// coach's own choice stays.
void ComparePage::chooseAlikeSteps()
{
    for (CompareSide* side : used()) {
        ClipDocument* clip = side->clip();
        if (std::ranges::find(m_stepsChosenFor, clip) != m_stepsChosenFor.end()) {
            continue;
        }
        const Foot near = clip->isNear(Foot::Left) ? Foot::Left : Foot::Right;
        if (const auto step = typicalStep(*clip->readings(), clip->marking(), clip->index(), near,
                                          m_context.session.about().measures)) {
            side->chooseStep(step->number);
        }
    }
    m_stepsChosenFor.clear();
    for (CompareSide* side : used()) {
        m_stepsChosenFor.push_back(side->clip());
    }
    showMoment();
}

QString ComparePage::whyNothing() const
{
    const auto sides = used();
    for (const CompareSide* side : sides) {
        if (side->clip() == nullptr) {
            return tr("A comparison needs a clip on every side: choose one above, or set a clip's "
                      "condition to fresh or fatigued on the Filming page.");
        }
    }
    for (const CompareSide* side : sides) {
        if (!side->clip()->fault().isEmpty()) {
            return side->clip()->fault();
        }
        if (!side->clip()->readings()) {
            return side->clip()->readingsFault().isEmpty() ? tr("Reading the clips…")
                                                           : side->clip()->readingsFault();
        }
    }
    return {};
}

QStringList ComparePage::names() const
{
    QStringList conditions;
    QStringList dates;
    for (const CompareSide* side : used()) {
        conditions.append(capital(wordForCondition(side->clip()->clip().condition)));
        dates.append(fromUtf8(side->clip()->readings()->clip.date));
    }
    for (QStringList* names : {&conditions, &dates}) {
        if (QSet<QString>(names->begin(), names->end()).size() == names->size()) {
            return *names;
        }
    }
    QStringList numbered{tr("First"), tr("Second"), tr("Third")};
    numbered.resize(conditions.size());
    return numbered;
}

void ComparePage::compareNow()
{
    const QString told = whyNothing();
    std::vector<Comparison> comparisons;
    QStringList sides;
    if (told.isEmpty()) {
        sides = names();
        const Readings& first = *m_sides[0]->clip()->readings();
        for (qsizetype at = 1; at < sides.size(); ++at) {
            const std::string a = sides.front().toLower().toStdString();
            const std::string b = sides.at(at).toLower().toStdString();
            comparisons.push_back(compare(first,
                                          *used()[static_cast<std::size_t>(at)]->clip()->readings(),
                                          {.first = a, .second = b}));
        }
        chooseAlikeSteps();
    }
    const auto& chosen = m_context.session.about().measures;
    const bool all = m_measures->currentIndex() == 1;
    m_panel->setComparisons(
        std::move(comparisons), sides,
        all ? std::vector<std::string>{} : (chosen.empty() ? defaultMeasures() : chosen), told);
}

void ComparePage::showMoment()
{
    const auto instant = m_locks->instant();
    for (CompareSide* side : used()) {
        const Step* step = side->step();
        if (step == nullptr || !side->clip()->isOpen()) {
            side->showFrame(std::nullopt);
            continue;
        }
        const FrameIndex& index = side->clip()->index();
        side->showFrame(instant ? frameOf(*step, *instant, index)
                                : frameAtPhase(*step, m_locks->phase(), index));
    }
    tellGhosts();
}

/// The first figure is the ghost on all others, and the second on the first.
void ComparePage::tellGhosts()
{
    m_sides[0]->setGhost(m_sides[1]->shown(), m_locks->ghost());
    m_sides[1]->setGhost(m_sides[0]->shown(), m_locks->ghost());
    m_sides[2]->setGhost(m_sides[0]->shown(), m_locks->ghost());
}

void ComparePage::followSight(const CompareSide& moved)
{
    const auto sight = moved.sightInCm();
    for (CompareSide* side : used()) {
        if (side != &moved && sight) {
            side->setSightInCm(*sight);
        }
    }
}

void ComparePage::showEvent(QShowEvent*)
{
    // Another day's session may have been edited since.
    m_clips->renew();
}

void ComparePage::hideEvent(QHideEvent*)
{
    m_locks->setPlaying(false);
}

} // namespace latemile::ui
