// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/still_options.hpp"

#include "core/sheet/still_choice.hpp"
#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QFormLayout>
#include <QStandardItemModel>

#include <algorithm>

namespace latemile::ui {
namespace {

std::vector<StepNumber> stepsThatShow(const ClipDocument* clip, const std::vector<Instant>& at)
{
    if (clip == nullptr || !clip->isOpen()) {
        return {};
    }
    const Foot near = clip->isNear(Foot::Right) ? Foot::Right : Foot::Left;
    return showableSteps(clip->steps(), near, clip->marking(), clip->index(), at);
}

void enableItem(QComboBox& box, int row, bool enabled)
{
    auto* model = dynamic_cast<QStandardItemModel*>(box.model());
    model->item(row)->setEnabled(enabled);
}

} // namespace

StillOptions::StillOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(maker), m_first(choice(tr("First moment"))),
      m_second(choice(tr("Second moment"))), m_fresh(choice(tr("Fresh step"))),
      m_fatigued(choice(tr("Fatigued step")))
{
    for (const Instant instant : instantsInOrder) {
        m_first->addItem(capital(wordFor(instant)));
    }
    m_second->addItem(tr("None"));
    for (const Instant instant : instantsInOrder) {
        m_second->addItem(capital(wordFor(instant)));
    }
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, gridStep, 0, 0);
    form->setSpacing(gridStep);
    auto* note = quietLabel(tr("Only moments whose hip and two more near landmarks are marked in "
                               "both clips can be shown."),
                            this);
    note->setWordWrap(true);
    form->addRow(note);
    form->addRow(tr("First moment"), m_first);
    form->addRow(tr("Second moment"), m_second);
    form->addRow(tr("Fresh step"), m_fresh);
    form->addRow(tr("Fatigued step"), m_fatigued);
    connect(&context.session, &SessionDocument::aboutChanged, this, &StillOptions::fill);
    connect(&maker, &SheetMaker::made, this, &StillOptions::fill);
    fill();
}

QComboBox* StillOptions::choice(const QString& name)
{
    auto* box = new QComboBox(this);
    box->setAccessibleName(name);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(10);
    connect(box, &QComboBox::activated, this, &StillOptions::take);
    return box;
}

bool StillOptions::canShow(Instant instant) const
{
    return !stepsThatShow(m_context.session.clipOf("fresh"), {instant}).empty() &&
           !stepsThatShow(m_context.session.clipOf("fatigued"), {instant}).empty();
}

std::vector<Instant> StillOptions::instants() const
{
    const auto& wished = m_context.session.about().stills.instants;
    return wished.empty() ? defaultStillInstants() : wished;
}

void StillOptions::fill()
{
    m_filling = true;
    const auto shown = instants();
    for (int at = 0; at < static_cast<int>(instantsInOrder.size()); ++at) {
        const bool can = canShow(instantsInOrder[static_cast<std::size_t>(at)]);
        enableItem(*m_first, at, can);
        enableItem(*m_second, at + 1, can);
    }
    m_first->setCurrentIndex(static_cast<int>(shown.front()));
    m_second->setCurrentIndex(shown.size() > 1 ? static_cast<int>(shown[1]) + 1 : 0);
    const StillWish& wish = m_context.session.about().stills;
    fillSteps(*m_fresh, "fresh", wish.freshStep);
    fillSteps(*m_fatigued, "fatigued", wish.fatiguedStep);
    m_filling = false;
}

void StillOptions::fillSteps(QComboBox& box, const char* condition,
                             std::optional<StepNumber> wished)
{
    box.clear();
    QString typical = tr("The most typical");
    if (m_maker.content() && !wished) {
        const bool fatigued = std::string_view(condition) == "fatigued";
        const auto& stills = m_maker.content()->stills;
        const auto still = std::ranges::find(stills, fatigued, &Still::fatigued);
        if (still != stills.end()) {
            typical = tr("The most typical, step %1").arg(still->step.value);
        }
    }
    box.addItem(typical);
    for (const StepNumber step : stepsThatShow(m_context.session.clipOf(condition), instants())) {
        box.addItem(tr("Step %1").arg(step.value), step.value);
        if (step == wished) {
            box.setCurrentIndex(box.count() - 1);
        }
    }
}

void StillOptions::take()
{
    if (m_filling) {
        return;
    }
    const auto stepOf = [](const QComboBox& box) -> std::optional<StepNumber> {
        return box.currentIndex() <= 0 ? std::nullopt
                                       : std::optional(StepNumber{box.currentData().toInt()});
    };
    StillWish wish{.freshStep = stepOf(*m_fresh),
                   .fatiguedStep = stepOf(*m_fatigued),
                   .instants = {static_cast<Instant>(m_first->currentIndex())}};
    if (m_second->currentIndex() > 0 && m_second->currentIndex() - 1 != m_first->currentIndex()) {
        wish.instants.push_back(static_cast<Instant>(m_second->currentIndex() - 1));
    }
    if (wish.instants == defaultStillInstants()) {
        wish.instants.clear();
    }
    SessionAbout about = m_context.session.about();
    about.stills = std::move(wish);
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("choose stills"), ++m_gesture));
}

} // namespace latemile::ui
