// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/contact_finding.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/confirm_stances.hpp"
#include "ui/document/commands/propose_stances.hpp"
#include "ui/document/commands/remove_stance.hpp"
#include "ui/filming/work_bar.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>
#include <iterator>

namespace latemile::ui {
namespace {

const auto workId = QStringLiteral("contacts");

bool isProposal(const Stance& stance)
{
    return stance.origin != Origin::Placed;
}

/// What contacts are found from.
Marking askedOf(const ClipDocument& clip)
{
    Marking marking = clip.marking();
    std::erase_if(marking.stances, isProposal);
    return marking;
}

bool isSame(const Stance& a, const Stance& b)
{
    constexpr Seconds alike{0.1}; // no foot lands twice within it
    return a.foot == b.foot && std::chrono::abs(a.contact - b.contact) < alike;
}

bool isAmong(const Stance& stance, const std::vector<Stance>& stances)
{
    return std::ranges::any_of(stances,
                               [&stance](const Stance& one) { return isSame(one, stance); });
}

/// The coach has placed a mark between its contact and its toe-off.
bool isWorkedOn(const Stance& stance, const ClipDocument& clip)
{
    const auto& index = clip.index();
    const auto first = index.firstAtOrAfter(stance.contact);
    const auto last = stance.toeOff ? index.firstAtOrAfter(*stance.toeOff) : first;
    const auto& marks = clip.marking().marks;
    return std::any_of(marks.lower_bound({first, BodySide{}, Landmark{}}),
                       marks.lower_bound({{last.value + 1}, BodySide{}, Landmark{}}),
                       [](const auto& entry) { return entry.second.origin == Origin::Placed; });
}

/// What the coach is looking at, or has worked on, does not move under her eyes: such proposals
/// take the place of what was found of the same stance, and stand where nothing was.
std::vector<Stance> steadied(std::vector<Stance> found, const ClipDocument& clip,
                             const std::optional<Stance>& atHand)
{
    std::vector<Stance> steady;
    for (Stance stance : clip.marking().stances) {
        if (!isProposal(stance) || (stance != atHand && !isWorkedOn(stance, clip))) {
            continue;
        }
        const auto same = std::ranges::find_if(
            found, [&stance](const Stance& one) { return isSame(one, stance); });
        if (same != found.end()) {
            stance.toeOff = stance.toeOff ? stance.toeOff : same->toeOff;
            found.erase(same);
        }
        steady.push_back(stance);
    }
    found.insert(found.begin(), steady.begin(), steady.end()); // first, so that they win
    return found;
}

} // namespace

ContactFinding::ContactFinding(MarkingFlow& flow, FollowPanel& panel, const Keys& keys,
                               QObject* parent)
    : QObject(parent), m_flow(flow), m_panel(panel), m_keys(keys), m_work(new ContactWork(this))
{
    connect(&panel, &FollowPanel::contactsWanted, this, &ContactFinding::find);
    connect(&panel, &FollowPanel::acceptContactsWanted, this, &ContactFinding::acceptAll);
    connect(&panel.work(), &WorkBar::stopWanted, this, [this](const QString& id) {
        if (id == workId) {
            stop();
        }
    });
    connect(m_work, &ContactWork::progress, this,
            [this](int percent) { m_panel.work().setWork(workId, tr("Contacts"), percent); });
    connect(m_work, &ContactWork::found, this,
            [this](const std::shared_ptr<const ContactFindings>& findings) {
                m_panel.work().endWork(workId);
                arrive(*findings);
            });
    connect(m_work, &ContactWork::failed, this, [this](const QString& sentence) {
        m_panel.work().endWork(workId);
        tell(sentence, "bad");
        emit settled(false);
    });
}

void ContactFinding::forget(const ClipDocument* clip)
{
    m_along.erase(clip->file());
    if (clip == m_flow.clip()) {
        m_landing.reset();
    }
}

bool ContactFinding::isUsable() const
{
    const ClipDocument* clip = m_flow.clip();
    return clip != nullptr && clip->isOpen() && !m_flow.asksOnly();
}

void ContactFinding::find()
{
    if (!isUsable()) {
        return;
    }
    if (m_work->isBusy()) {
        m_panel.tell(tr("Contacts are being found: wait for them, or stop that first."), "");
        return;
    }
    m_panel.tell({}, "");
    m_isAsked = true;
    m_tellsRemarks = true;
    begin(*m_flow.clip());
}

void ContactFinding::findAlong(bool inWholeClip)
{
    if (!isUsable()) {
        emit settled(false);
    } else if (!m_work->isBusy()) { // else what is being found settles
        m_isAsked = false;
        m_tellsRemarks = inWholeClip;
        begin(*m_flow.clip());
    }
}

void ContactFinding::begin(ClipDocument& clip)
{
    m_looked = &clip;
    m_asked = askedOf(clip);
    m_scene = clip.scene();
    if (arePicturesOfUse(m_asked, clip.index(), m_scene)) {
        m_work->find({.file = clip.file(),
                      .options = clip.clipOptions(),
                      .marking = m_asked,
                      .scene = m_scene});
        return;
    }
    const auto findings = findContacts(m_asked, clip.index(), m_scene);
    if (findings) {
        take(clip, *findings);
    } else {
        tell(fromUtf8(findings.error().sentence), "doubt");
        emit settled(false);
    }
}

/// Times would be of another clock, feet or legs exchanged, stances doubled.
void ContactFinding::arrive(const ContactFindings& findings)
{
    if (!m_looked) { // The clip was taken away meanwhile.
        emit settled(false);
        return;
    }
    if (!m_looked->isOpen() || m_looked->scene() != m_scene) {
        tell(tr("The clip was described anew meanwhile: find its contacts again."), "doubt");
        emit settled(false);
    } else if (m_isAsked && askedOf(*m_looked) != m_asked) { // unasked: placed stances stay
        begin(*m_looked);
    } else {
        take(*m_looked, findings);
    }
}

/// Of the clip at work, where it is the one shown.
void ContactFinding::tell(const QString& sentence, const char* state)
{
    if (m_isAsked && m_looked == m_flow.clip()) {
        m_panel.tell(sentence, state);
    }
}

void ContactFinding::stop()
{
    m_work->stop();
    m_panel.work().endWork(workId);
    m_panel.tell(tr("Finding contacts was stopped; nothing was changed."), "");
    emit stopped();
    emit settled(false);
}

std::optional<Stance> ContactFinding::stanceAtHand() const
{
    const auto place = m_flow.place();
    const auto& stances = m_flow.clip()->marking().stances;
    const auto at = place ? static_cast<std::size_t>(place->step.value - 1) : stances.size();
    return at < stances.size() ? std::optional(stances[at]) : std::nullopt;
}

/// Steps may have got other numbers.
void ContactFinding::stayAt(const Stance& stance, bool isLanding)
{
    const auto& stances = m_flow.clip()->marking().stances;
    const auto there =
        std::ranges::find_if(stances, [&stance](const Stance& one) { return isSame(one, stance); });
    const auto place = m_flow.place();
    if (there == stances.end() || !place) {
        return;
    }
    const StepNumber step{static_cast<int>(there - stances.begin()) + 1};
    if (isLanding) {
        m_landing = step;
    }
    if (step != place->step) {
        emit placeWanted({step, place->instant});
    }
}

/// Asked for, all that is found is proposed; along with landmarks nothing comes back that the coach
/// has removed.
std::vector<Stance> ContactFinding::withoutRejected(std::vector<Stance> found,
                                                    const ClipDocument& clip)
{
    if (m_isAsked) {
        m_along.erase(clip.file());
        return found;
    }
    auto& along = m_along[clip.file()];
    const auto& stances = clip.marking().stances;
    std::ranges::copy_if(along.put, std::back_inserter(along.rejected),
                         [&](const Stance& stance) { return !isAmong(stance, stances); });
    along.put.clear();
    std::erase_if(found, [&](const Stance& stance) {
        return isAmong(stance, along.rejected) && !isAmong(stance, stances);
    });
    return found;
}

void ContactFinding::noteAlong(const ClipDocument& clip)
{
    if (!m_isAsked) {
        std::ranges::copy_if(clip.marking().stances, std::back_inserter(m_along[clip.file()].put),
                             isProposal);
    }
}

void ContactFinding::take(ClipDocument& clip, const ContactFindings& findings)
{
    const bool isShown = &clip == m_flow.clip();
    const auto atHand = isShown ? stanceAtHand() : std::nullopt;
    const bool isLanding = atHand && m_landing == m_flow.place()->step;
    if (isShown) {
        m_landing.reset(); // steps may get other numbers
    }
    const auto found = steadied(withoutRejected(findings.stances, clip), clip, atHand);
    const auto stances = ProposeStances::withFound(clip, found);
    if (stances != clip.marking().stances) {
        clip.history().push(new ProposeStances(clip, found));
    }
    noteAlong(clip);
    if (atHand) {
        stayAt(*atHand, isLanding);
    }
    if (isShown && (m_isAsked || !found.empty())) {
        tellFound(findings, static_cast<std::size_t>(std::ranges::count_if(stances, isProposal)));
    }
    emit settled(true);
}

void ContactFinding::tellFound(const ContactFindings& findings, std::size_t proposed)
{
    QStringList remarks;
    for (const std::string& remark : findings.remarks) {
        if (m_tellsRemarks) {
            remarks.append(fromUtf8(remark));
        }
    }
    const QString told =
        proposed == 0
            ? tr("No contact was found beyond those marked.")
            : tr("Stances proposed: %1. %2 shows one, its toe-off, then the next; %3 accepts all, "
                 "%4 removes one.")
                  .arg(proposed)
                  .arg(m_keys.textOf("marks.accept_contact"),
                       m_keys.textOf("marks.accept_contacts"), m_keys.textOf("marks.remove_step"));
    const QString remarked =
        remarks.isEmpty() ? QString() : u' ' + tr("To look at: %1.").arg(remarks.size());
    m_panel.tell(told + remarked, remarks.isEmpty() ? "" : "doubt", remarks);
}

/// After the step at hand, round the clip.
std::optional<StepNumber> ContactFinding::nextProposed() const
{
    const auto& stances = m_flow.clip()->marking().stances;
    const auto count = static_cast<int>(stances.size());
    const int here = m_flow.place() ? m_flow.place()->step.value : 0;
    for (int n = 1; n <= count; ++n) {
        const int step = (here + n - 1) % count + 1;
        if (isProposal(stances[static_cast<std::size_t>(step - 1)])) {
            return StepNumber{step};
        }
    }
    return std::nullopt;
}

/// The contact shown may have been set right meanwhile, which makes the stance the coach's.
bool ContactFinding::hasToeOffToShow() const
{
    const auto place = m_flow.place();
    if (!place || place->instant != Instant::Contact) {
        return false;
    }
    const auto& stances = m_flow.clip()->marking().stances;
    const auto at = static_cast<std::size_t>(place->step.value - 1);
    return at < stances.size() && m_flow.frameOf({place->step, Instant::ToeOff}) &&
           (isProposal(stances[at]) || m_landing == place->step);
}

void ContactFinding::acceptEvent()
{
    if (!isUsable()) {
        return;
    }
    if (hasToeOffToShow()) {
        m_landing.reset();
        emit placeWanted({m_flow.place()->step, Instant::ToeOff});
        return;
    }
    if (m_flow.place()) {
        accept(m_flow.place()->step);
    }
    m_landing = nextProposed();
    if (m_landing) {
        emit placeWanted({*m_landing, Instant::Contact});
    } else {
        m_panel.tell(tr("All contacts and toe-offs are yours."), "");
        if (const auto cell = m_flow.nextOpen(1)) {
            emit placeWanted(*cell);
        }
    }
}

void ContactFinding::acceptAll()
{
    if (!isUsable()) {
        return;
    }
    ClipDocument& clip = *m_flow.clip();
    if (std::ranges::any_of(clip.marking().stances, isProposal)) {
        clip.history().push(new ConfirmAllStances(clip));
        m_panel.tell(tr("All contacts found are accepted."), "");
    } else {
        m_panel.tell(tr("There is no proposed contact: find contacts first."), "doubt");
    }
}

void ContactFinding::accept(StepNumber step)
{
    ClipDocument& clip = *m_flow.clip();
    const auto at = static_cast<std::size_t>(step.value - 1);
    if (at < clip.marking().stances.size() && isProposal(clip.marking().stances[at])) {
        clip.history().push(new ConfirmStance(clip, at));
    }
}

void ContactFinding::reject(StepNumber step)
{
    ClipDocument& clip = *m_flow.clip();
    const auto at = static_cast<std::size_t>(step.value - 1);
    if (at < clip.marking().stances.size()) {
        clip.history().push(new RemoveStance(clip, at));
    }
}

} // namespace latemile::ui
