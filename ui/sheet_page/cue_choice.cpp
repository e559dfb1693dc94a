// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/cue_choice.hpp"

#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr std::size_t mostCues = 2; // two things are all that anyone can think of while running

} // namespace

CueChoice::CueChoice(const PageContext& context, const SheetMaker& maker, QWidget* parent)
    : QScrollArea(parent), m_context(context), m_maker(maker)
{
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus); // the boxes in it take the focus
    setAccessibleName(tr("Cues on the sheet"));
    connect(&context.session, &SessionDocument::aboutChanged, this, &CueChoice::fill);
    connect(&maker, &SheetMaker::made, this, &CueChoice::fill);
    fill();
}

std::vector<CueChoice::Offer> CueChoice::offers() const
{
    Comparison comparison;
    if (m_maker.content()) {
        comparison.rows = m_maker.content()->compared;
    }
    const auto fitting = fittingCues(comparison, m_maker.cues());
    std::vector<Offer> offers;
    for (const Cue& cue : m_maker.cues()) {
        Offer offer{.id = cue.id, .think = fromUtf8(cue.think), .reason = {}};
        offer.suggested =
            std::ranges::any_of(fitting, [&](const FittingCue& fit) { return fit.cue == &cue; });
        const ComparisonRow* row = reasonFor(cue, comparison);
        offer.fits = row != nullptr;
        offer.reason = row == nullptr    ? tr("No clear change asks for it.")
                       : offer.suggested ? tr("Suggested: %1").arg(fromUtf8(row->sentence))
                                         : tr("Fits: %1").arg(fromUtf8(row->sentence));
        offers.push_back(std::move(offer));
    }
    std::ranges::stable_sort(offers, std::ranges::greater{}, [](const Offer& offer) {
        return (offer.suggested ? 2 : 0) + (offer.fits ? 1 : 0);
    });
    return offers;
}

void CueChoice::fill()
{
    const auto all = offers();
    QString signature = m_maker.content() ? fromUtf8(m_maker.content()->seeClinician) : QString();
    for (const Offer& offer : all) {
        signature += fromUtf8(offer.id) + offer.reason;
    }
    if (signature != m_built || m_boxes.empty()) {
        m_built = signature;
        build(all);
    }
    const auto& chosen = m_context.session.about().cues;
    m_filling = true;
    for (std::size_t at = 0; at < m_boxes.size(); ++at) {
        const bool on = chosen.empty() ? all[at].suggested
                                       : std::ranges::find(chosen, all[at].id) != chosen.end();
        m_boxes[at]->setChecked(on);
        m_boxes[at]->setEnabled(on || chosen.size() < mostCues);
    }
    m_filling = false;
}

void CueChoice::build(const std::vector<Offer>& all)
{
    auto* page = new QWidget;
    page->setProperty("rank", "page");
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, gridStep, gridStep, 0);
    column->setSpacing(gridStep / 2);
    const bool waits = m_maker.content() && !m_maker.content()->seeClinician.empty();
    auto* state =
        quietLabel(waits ? tr("! No cue stands on this sheet: a licensed clinician comes first.")
                         : tr("One or two. With none ticked by you the numbers suggest."),
                   page);
    state->setWordWrap(true);
    setState(*state, waits ? "bad" : "");
    column->addWidget(state);
    m_boxes.clear();
    for (const Offer& offer : all) {
        auto* box = new QCheckBox(offer.think, page);
        box->setProperty("cue", fromUtf8(offer.id));
        box->setAccessibleDescription(offer.reason);
        connect(box, &QCheckBox::toggled, this, &CueChoice::take);
        auto* reason = quietLabel(offer.reason, page);
        reason->setWordWrap(true);
        reason->setContentsMargins(3 * gridStep, 0, 0, gridStep);
        column->addWidget(box);
        column->addWidget(reason);
        m_boxes.push_back(box);
    }
    column->addStretch();
    setWidget(page);
}

void CueChoice::take()
{
    if (m_filling) {
        return;
    }
    SessionAbout about = m_context.session.about();
    about.cues.clear();
    for (const QCheckBox* box : m_boxes) {
        if (box->isChecked() && about.cues.size() < mostCues) {
            about.cues.push_back(box->property("cue").toString().toStdString());
        }
    }
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("choose cues"), ++m_gesture));
}

} // namespace latemile::ui
