// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marking_flow.hpp"

#include "core/propose/row_bound.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/marks/foot_seeds.hpp"
#include "ui/marks/judged_bones.hpp"

#include <algorithm>
#include <iterator>

namespace latemile::ui {
MarkingFlow::MarkingFlow(Selection& selection, QObject* parent)
    : QObject(parent), m_selection(selection)
{
    connect(&m_selection, &Selection::placeChanged, this, &MarkingFlow::reset);
}

void MarkingFlow::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    m_shown.reset();
    m_bounds = {};
    m_order.forget();
    if (m_clip) {
        connect(m_clip, &ClipDocument::markChanged, this, [this] {
            findOddBones();
            findDoubtBound();
            noteUrgency();
            emit changed();
        });
        connect(m_clip, &ClipDocument::sceneChanged, this, &MarkingFlow::findOddBones);
        connect(m_clip, &ClipDocument::stancesChanged, this, [this] {
            findRhythmFaults();
            findOddBones();
            noteUrgency();
            emit changed();
        });
    }
    findOddBones();
    findRhythmFaults();
    findDoubtBound();
    noteUrgency();
    reset();
}

void MarkingFlow::findRhythmFaults()
{
    m_rhythmFaults =
        m_clip ? latemile::rhythmFaults(m_clip->marking().stances) : std::vector<RhythmFault>{};
}

void MarkingFlow::findDoubtBound()
{
    const double trunk = m_clip ? trunkPx(m_clip->marking()) : 0.0;
    m_bounds.proposalPx = trunk > 0 ? std::optional(doubtBoundInTrunks * trunk) : std::nullopt;
}

void MarkingFlow::findOddBones()
{
    m_oddBones = m_clip ? oddBonesOf(*m_clip) : std::vector<OddBone>{};
}

std::vector<OddBone> MarkingFlow::oddBonesOn(FrameNumber frame) const
{
    std::vector<OddBone> odd;
    std::ranges::copy_if(m_oddBones, std::back_inserter(odd),
                         [frame](const OddBone& bone) { return bone.frame == frame; });
    return odd;
}

void MarkingFlow::setPlan(const AskedLandmarks& plan)
{
    m_plan = plan;
    m_order.forget();
    noteUrgency();
    emit changed();
}

void MarkingFlow::askOnly(std::vector<AskedCell> cells)
{
    m_only = std::move(cells);
    emit changed();
}

const Step* MarkingFlow::stepOf(StepNumber number) const
{
    if (!m_clip) {
        return nullptr;
    }
    const auto& steps = m_clip->steps();
    const auto found = std::ranges::find(steps, number, &Step::number);
    return found == steps.end() ? nullptr : &*found;
}

std::optional<FrameNumber> MarkingFlow::frameOf(const StepInstant& place) const
{
    const Step* step = stepOf(place.step);
    return step != nullptr && m_clip->isOpen()
               ? latemile::frameOf(*step, place.instant, m_clip->index())
               : std::nullopt;
}

const std::vector<Landmark>& MarkingFlow::asked(const StepInstant& place) const
{
    static const std::vector<Landmark> nothing;
    if (!m_only.empty()) {
        const auto found = std::ranges::find(m_only, place, &AskedCell::place);
        return found == m_only.end() ? nothing : found->landmarks;
    }
    const Step* step = stepOf(place.step);
    return step == nullptr ? nothing : m_plan.at(place.instant, m_clip->isNear(step->foot));
}

CellWork MarkingFlow::work(const StepInstant& place) const
{
    const auto frame = frameOf(place);
    const auto& landmarks = asked(place);
    if (!frame) {
        return {CellState::Empty, 0, static_cast<int>(landmarks.size())};
    }
    CellWork work = workOf(*m_clip, *frame, landmarks);
    // What a frame was chosen by must be the coach's word too.
    if (work.state == CellState::Confirmed && stepOf(place.step)->origin != Origin::Placed) {
        work.state = CellState::Proposed;
    }
    return work;
}

CellDoubt MarkingFlow::doubt(const StepInstant& place) const
{
    const auto frame = frameOf(place);
    return frame ? doubtOf(m_clip->marking(), *frame, asked(place), m_bounds) : CellDoubt{};
}

void MarkingFlow::setGaps(std::vector<FollowGap> gaps)
{
    m_bounds.gaps = std::move(gaps);
    m_order.forget();
    noteUrgency();
    emit changed();
}

/// Only where marks were followed or proposed: else the cells come as they are in the clip.
void MarkingFlow::noteUrgency()
{
    const std::size_t steps = m_clip ? m_clip->steps().size() : 0;
    if (steps != m_stepsNoted) {
        m_order.forget();
        m_stepsNoted = steps;
    }
    std::vector<std::pair<StepInstant, CellDoubt>> doubts;
    for (const StepInstant& place : open()) {
        doubts.emplace_back(place, doubt(place));
    }
    const bool isGuessed =
        std::ranges::any_of(doubts, [](const auto& noted) { return noted.second.guessed() > 0; });
    if (isGuessed && !asksOnly()) {
        for (const auto& [place, noted] : doubts) {
            m_order.note(place, noted.urgency());
        }
    } else if (!doubts.empty()) {
        m_order.forget();
    }
}

std::vector<StepInstant> MarkingFlow::cells() const
{
    std::vector<StepInstant> cells;
    if (!m_clip) {
        return cells;
    }
    for (const AskedCell& only : m_only) {
        cells.push_back(only.place);
    }
    if (!m_only.empty()) {
        return cells;
    }
    for (const Step& step : m_clip->steps()) {
        for (const Instant instant : instantsInOrder) {
            const StepInstant place{step.number, instant};
            const bool event = instant == Instant::Contact || instant == Instant::ToeOff;
            if (event || !asked(place).empty()) {
                cells.push_back(place);
            }
        }
    }
    m_order.sort(cells);
    return cells;
}

std::vector<StepInstant> MarkingFlow::open() const
{
    auto cells = this->cells();
    std::erase_if(cells, [this](const StepInstant& place) { return !isOpen(place); });
    return cells;
}

bool MarkingFlow::isOpen(const StepInstant& place) const
{
    return frameOf(place) && work(place).state != CellState::Confirmed;
}

std::optional<StepInstant> MarkingFlow::openIn(StepNumber step) const
{
    for (const Instant instant : instantsInOrder) {
        const StepInstant place{step, instant};
        if (!asked(place).empty() && isOpen(place)) {
            return place;
        }
    }
    return std::nullopt;
}

std::optional<StepInstant> MarkingFlow::nextOpen(int way) const
{
    return m_order.next(cells(), m_selection.place(), way,
                        [this](const StepInstant& place) { return isOpen(place); });
}

std::optional<FrameNumber> MarkingFlow::frame() const
{
    return m_selection.place() ? frameOf(*m_selection.place()) : std::nullopt;
}

std::optional<Landmark> MarkingFlow::pending() const
{
    const auto key = pendingKey();
    return key ? std::optional(key->landmark) : std::nullopt;
}

std::optional<MarkKey> MarkingFlow::pendingKey() const
{
    if (m_feet && m_clip) {
        return nextFootSeed(m_clip->marking(), *m_feet);
    }
    const auto at = frame();
    if (!at) {
        return std::nullopt;
    }
    for (const Landmark landmark : asked(*m_selection.place())) {
        const MarkKey key{*at, BodySide::Near, landmark};
        if (m_clip->marking().find(key) == nullptr && !m_clip->marking().unseen.contains(key)) {
            return key;
        }
    }
    return std::nullopt;
}

void MarkingFlow::askFeet()
{
    if (m_clip && m_shown && isSideView(m_clip->scene().view)) {
        m_chosen.reset();
        m_feet = m_shown;
        letFeetGoWhenDone();
        placeCursorNearGuess();
        emit changed();
    }
}

void MarkingFlow::letFeetGo()
{
    m_feet.reset();
    emit changed();
}

void MarkingFlow::letFeetGoWhenDone()
{
    if (m_feet && !nextFootSeed(m_clip->marking(), *m_feet)) {
        m_feet.reset();
        emit feetDone();
    }
}

void MarkingFlow::setShown(FrameNumber frame)
{
    m_shown = frame;
    if (m_feet && m_feet != frame) {
        letFeetGo();
    }
}

void MarkingFlow::choose(const std::optional<MarkKey>& key)
{
    m_chosen = key;
    ++m_gesture;
    emit changed();
}

void MarkingFlow::chooseNext(int way)
{
    const auto at = frame();
    if (!at) {
        return;
    }
    std::vector<MarkKey> keys;
    for (auto it = m_clip->marking().marks.lower_bound({*at, BodySide{}, Landmark{}});
         it != m_clip->marking().marks.end() && it->first.frame == *at; ++it) {
        keys.push_back(it->first);
    }
    if (keys.empty()) {
        return;
    }
    const auto count = static_cast<std::ptrdiff_t>(keys.size());
    const auto found = m_chosen ? std::ranges::find(keys, *m_chosen) : keys.end();
    const std::ptrdiff_t now =
        found == keys.end() ? (way > 0 ? -1 : count) : std::distance(keys.begin(), found);
    choose(keys[static_cast<std::size_t>((now + way + count) % count)]);
}

void MarkingFlow::setCursor(PixelPoint at)
{
    m_cursor = at;
    m_cursorFromPointer = true;
    emit changed();
}

/// Where the landmark was a step before, moved along with the last landmark placed here: a runner
/// drifts on a belt, but not much within one figure.
std::optional<PixelPoint> MarkingFlow::guessOf(Landmark landmark) const
{
    const auto there = sameInstantBefore();
    const Mark* before =
        there ? m_clip->marking().find({*frameOf(*there), BodySide::Near, landmark}) : nullptr;
    if (before == nullptr) {
        return std::nullopt;
    }
    PixelPoint guess = before->at;
    for (const Landmark placed : asked(*m_selection.place())) {
        const Mark* here = m_clip->marking().find({*frame(), BodySide::Near, placed});
        const Mark* then = m_clip->marking().find({*frameOf(*there), BodySide::Near, placed});
        if (here != nullptr && then != nullptr) {
            guess = {before->at.u + here->at.u - then->at.u,
                     before->at.v + here->at.v - then->at.v};
        }
    }
    return guess;
}

/// For marking without a pointer: the crosshair begins where the landmark may be.
void MarkingFlow::placeCursorNearGuess()
{
    const auto landmark = pending();
    if (landmark && m_feet) {
        if (const Mark* proposed = m_clip->marking().find(*pendingKey())) {
            m_cursor = proposed->at; // wherever the pointer is: it need only be accepted
            m_cursorFromPointer = false;
            return;
        }
    }
    if (!landmark || m_cursorFromPointer) {
        return;
    }
    const auto guess = m_feet ? std::nullopt : guessOf(*landmark);
    if (guess) {
        m_cursor = *guess;
    } else if (m_cursor == PixelPoint{} && m_clip->isOpen()) {
        const ClipFacts& facts = m_clip->feed().facts();
        m_cursor = {facts.width / 2.0, facts.height / 2.0};
    }
}

void MarkingFlow::reset()
{
    m_chosen.reset();
    m_feet.reset();
    ++m_gesture;
    placeCursorNearGuess();
    emit changed();
}

} // namespace latemile::ui
