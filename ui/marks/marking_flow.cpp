// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/marking_flow.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/confirm_marks.hpp"
#include "ui/document/commands/confirm_stances.hpp"
#include "ui/document/commands/copy_marks.hpp"
#include "ui/document/commands/move_mark.hpp"
#include "ui/document/commands/not_visible.hpp"
#include "ui/document/commands/place_mark.hpp"
#include "ui/document/commands/remove_mark.hpp"

#include <QUndoStack>

#include <algorithm>
#include <array>
#include <iterator>
#include <memory>

namespace latemile::ui {
namespace {

constexpr std::array instantsInOrder{Instant::Contact, Instant::MidStance, Instant::ToeOff,
                                     Instant::MidSwing};

} // namespace

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
    if (m_clip) {
        connect(m_clip, &ClipDocument::markChanged, this, [this] {
            findOddBones();
            emit changed();
        });
        connect(m_clip, &ClipDocument::sceneChanged, this, &MarkingFlow::findOddBones);
        connect(m_clip, &ClipDocument::stancesChanged, this, [this] {
            findRhythmFaults();
            emit changed();
        });
    }
    findOddBones();
    findRhythmFaults();
    reset();
}

void MarkingFlow::findRhythmFaults()
{
    m_rhythmFaults =
        m_clip ? latemile::rhythmFaults(m_clip->marking().stances) : std::vector<RhythmFault>{};
}

void MarkingFlow::findOddBones()
{
    m_oddBones.clear();
    if (!m_clip || !isSideView(m_clip->scene().view)) {
        return;
    }
    const auto plane = Plane::from(m_clip->scene());
    m_oddBones = latemile::oddBones(m_clip->marking(), [&plane](PixelPoint point) {
        return plane ? plane->toPlane(point) : PlanePoint{point.u, point.v};
    });
}

std::vector<OddBone> MarkingFlow::oddBonesOn(FrameNumber frame) const
{
    std::vector<OddBone> odd;
    std::ranges::copy_if(m_oddBones, std::back_inserter(odd),
                         [frame](const OddBone& bone) { return bone.frame == frame; });
    return odd;
}

void MarkingFlow::setPlan(const CellPlan& plan)
{
    m_plan = plan;
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
    return step == nullptr ? nothing : m_plan.landmarks(place.instant, m_clip->isNear(step->foot));
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

std::optional<StepInstant> MarkingFlow::nextOpen(int way) const
{
    const auto cells = this->cells();
    const auto count = std::ssize(cells);
    const auto& here = m_selection.place();
    const auto found = here ? std::ranges::find(cells, *here) : cells.end();
    auto at = found - cells.begin();
    if (found == cells.end()) {
        // Between two cells: those before the place at hand lie behind it.
        const auto isBefore = [&here](const StepInstant& cell) {
            return here &&
                   std::pair(cell.step, cell.instant) < std::pair(here->step, here->instant);
        };
        at = std::ranges::count_if(cells, isBefore) - (way > 0 ? 1 : 0);
    }
    for (std::ptrdiff_t tried = 0; tried < count; ++tried) {
        at = (at + way + count) % count;
        if (isOpen(cells[static_cast<std::size_t>(at)])) {
            return cells[static_cast<std::size_t>(at)];
        }
    }
    return std::nullopt;
}

std::optional<FrameNumber> MarkingFlow::frame() const
{
    return m_selection.place() ? frameOf(*m_selection.place()) : std::nullopt;
}

std::optional<Landmark> MarkingFlow::pending() const
{
    const auto at = frame();
    if (!at) {
        return std::nullopt;
    }
    for (const Landmark landmark : asked(*m_selection.place())) {
        const MarkKey key{*at, BodySide::Near, landmark};
        if (m_clip->marking().find(key) == nullptr && !m_clip->marking().unseen.contains(key)) {
            return landmark;
        }
    }
    return std::nullopt;
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

void MarkingFlow::placePending(PixelPoint at)
{
    const auto landmark = pending();
    if (!landmark || m_shown != frame()) {
        return;
    }
    const MarkKey key{*frame(), BodySide::Near, *landmark};
    m_clip->history().push(new PlaceMark(*m_clip, key, at));
    m_chosen.reset();
    ++m_gesture;
    placeCursorNearGuess();
    emit changed();
    tellIfDone();
}

/// A mark that breaks a bone length keeps the coach here: its flag must be seen first.
void MarkingFlow::tellIfDone()
{
    const auto& here = m_selection.place();
    if (here && frame() && work(*here).state == CellState::Confirmed &&
        oddBonesOn(*frame()).empty()) {
        emit cellDone();
    }
}

void MarkingFlow::nudge(double du, double dv)
{
    if (m_chosen && m_clip) {
        if (const Mark* mark = m_clip->marking().find(*m_chosen)) {
            moveChosen({mark->at.u + du, mark->at.v + dv});
        }
        return;
    }
    m_cursor = {m_cursor.u + du, m_cursor.v + dv};
    m_cursorFromPointer = false;
    emit changed();
}

void MarkingFlow::moveChosen(PixelPoint to)
{
    if (m_chosen && m_clip) {
        m_clip->history().push(new MoveMark(*m_clip, *m_chosen, to, m_gesture));
    }
}

void MarkingFlow::sayNotVisible()
{
    const auto landmark = pending();
    if (m_chosen) {
        m_clip->history().push(new NotVisible(*m_clip, *m_chosen));
        choose(std::nullopt);
    } else if (landmark) {
        m_clip->history().push(new NotVisible(*m_clip, {*frame(), BodySide::Near, *landmark}));
        placeCursorNearGuess();
        tellIfDone();
    }
}

void MarkingFlow::removeChosen()
{
    if (m_chosen && m_clip && m_clip->marking().find(*m_chosen) != nullptr) {
        m_clip->history().push(new RemoveMark(*m_clip, *m_chosen));
        choose(std::nullopt);
    }
}

void MarkingFlow::confirm()
{
    const auto at = frame();
    if (!at) {
        return;
    }
    auto marks = std::make_unique<ConfirmMarks>(*m_clip, *at);
    const Step* step = stepOf(m_selection.place()->step);
    const bool event = step->origin != Origin::Placed;
    if (!event && !marks->isWork()) {
        tellIfDone();
        return;
    }
    m_clip->history().beginMacro(marks->text());
    if (event) {
        m_clip->history().push(
            new ConfirmStance(*m_clip, static_cast<std::size_t>(step->number.value - 1)));
    }
    if (marks->isWork()) {
        m_clip->history().push(marks.release());
    }
    m_clip->history().endMacro();
    tellIfDone();
}

std::optional<StepInstant> MarkingFlow::sameInstantBefore() const
{
    const auto& here = m_selection.place();
    if (!here || !m_clip) {
        return std::nullopt;
    }
    // The same foot first: the figure stands as it did a stride ago.
    for (const int back : {2, 1, 4, 3}) {
        const StepInstant there{StepNumber{here->step.value - back}, here->instant};
        const auto frame = frameOf(there);
        if (frame && work(there).done > 0) {
            return there;
        }
    }
    return std::nullopt;
}

void MarkingFlow::copyFromStepBefore()
{
    const auto there = sameInstantBefore();
    if (!there || !frame()) {
        return;
    }
    auto command = std::make_unique<CopyMarks>(*m_clip, *frameOf(*there), *frame(),
                                               asked(*m_selection.place()));
    if (command->isWork()) {
        m_clip->history().push(command.release());
    }
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
    if (!landmark || m_cursorFromPointer) {
        return;
    }
    if (const auto guess = guessOf(*landmark)) {
        m_cursor = *guess;
    } else if (m_cursor == PixelPoint{} && m_clip->isOpen()) {
        const ClipFacts& facts = m_clip->feed().facts();
        m_cursor = {facts.width / 2.0, facts.height / 2.0};
    }
}

void MarkingFlow::reset()
{
    m_chosen.reset();
    ++m_gesture;
    placeCursorNearGuess();
    emit changed();
}

} // namespace latemile::ui
