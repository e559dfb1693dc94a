// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scene_loan.hpp"

#include "core/filming/next_visit.hpp"
#include "core/scene/plane.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/document/session_document.hpp"
#include "ui/filming/camera_test.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/text/words.hpp"

#include <QUndoStack>

#include <algorithm>

namespace latemile::ui {
namespace {

/// Size of a pixel where the runner is: in the middle of what was drawn.
std::optional<double> cmPerPixelOf(const Scene& scene)
{
    const auto plane = Plane::from(scene);
    if (!plane || !plane->hasScale()) {
        return std::nullopt;
    }
    return plane->cmPerPixel(scene.scale ? scene.scale->a : PixelPoint{640.0, 360.0});
}

} // namespace

SceneLoan::SceneLoan(const PageContext& context, QObject* parent)
    : QObject(parent), m_context(context), m_test(new CameraTest(this))
{
    connect(m_test, &CameraTest::progress, this, &SceneLoan::progress);
    connect(m_test, &CameraTest::judged, this, &SceneLoan::take);
    connect(m_test, &CameraTest::failed, this, [this](const QString& sentence) {
        if (m_asked) {
            m_answers[m_asked].fault = sentence;
        }
        m_asked.clear();
        next();
    });
    connect(&context.session, &SessionDocument::clipGoing, this,
            [this](ClipDocument* clip) { m_answers.erase(clip); });
}

std::optional<SceneLoan::Lender> SceneLoan::lenderFor(const ClipDocument& clip) const
{
    const View view = clip.scene().view;
    auto today = m_context.session.clips();
    std::ranges::reverse(today);
    for (const ClipDocument* other : today) {
        if (other != &clip && other->scene().view == view && hasLines(other->scene())) {
            return Lender{tr("the clip \"%1\"").arg(clipName(*other)), other->file(),
                          other->scene()};
        }
    }
    const auto before = visitBefore(m_context.session.folder());
    if (!before) {
        return std::nullopt;
    }
    const SessionClip* lender = sameOf(before->session, clip.clip());
    if (lender == nullptr || !hasLines(lender->scene)) {
        const auto found =
            std::ranges::find_if(before->session.clips, [view](const SessionClip& other) {
                return other.scene.view == view && hasLines(other.scene);
            });
        lender = found == before->session.clips.end() ? nullptr : &*found;
    }
    return lender == nullptr ? std::nullopt
                             : std::optional(Lender{fromUtf8(before->session.date),
                                                    before->folder / lender->file, lender->scene});
}

void SceneLoan::offer(ClipDocument& clip, When when)
{
    m_waiting.push_back({&clip, when});
    if (!m_asked) {
        next();
    }
}

void SceneLoan::next()
{
    while (!m_waiting.empty()) {
        const Wish wish = m_waiting.front();
        m_waiting.pop_front();
        m_asked = wish.clip;
        const auto lender = m_asked ? lenderFor(*m_asked) : std::nullopt;
        if (lender) {
            m_answers[m_asked] = {.lender = *lender, .verdict = {}, .fault = {}, .taken = false};
            m_test->judge(lender->file, m_asked->file(), cmPerPixelOf(lender->scene));
            emit changed();
            return;
        }
        if (m_asked && wish.when == When::Asked) {
            m_answers[m_asked] = {.lender = {},
                                  .verdict = {},
                                  .fault = tr("No other clip from this side has lines to take."),
                                  .taken = false};
        }
        m_asked.clear();
    }
    emit changed();
}

void SceneLoan::take(const CameraVerdict& verdict)
{
    const QPointer<ClipDocument> clip = m_asked;
    m_asked.clear();
    if (clip) {
        Answer& answer = m_answers[clip];
        answer.verdict = verdict;
        if (verdict.stands == CameraVerdict::Stands::Same && !hasLines(clip->scene())) {
            answer.taken = true;
            giveLines(*clip, answer.lender.scene);
        }
    }
    next();
}

void SceneLoan::giveLines(ClipDocument& clip, const Scene& lines)
{
    const Scene scene = withLinesOf(clip.scene(), lines);
    if (scene != clip.scene()) {
        clip.history().push(new SetScene(clip, scene, tr("take over the lines"), -1));
    }
}

void SceneLoan::stop()
{
    m_test->stop();
    m_waiting.clear();
    if (m_asked) {
        m_answers.erase(m_asked);
    }
    m_asked.clear();
    emit changed();
}

bool SceneLoan::isBusy() const
{
    return m_asked != nullptr;
}

QString SceneLoan::sentenceFor(const ClipDocument& clip) const
{
    const auto found = m_answers.find(&clip);
    if (found == m_answers.end()) {
        return {};
    }
    const Answer& answer = found->second;
    if (!answer.fault.isEmpty()) {
        return answer.fault;
    }
    if (!answer.verdict) {
        return tr("Comparing the background with %1…").arg(answer.lender.name);
    }
    const QString against = tr("Against %1: ").arg(answer.lender.name);
    const QString told = fromUtf8(answer.verdict->sentence);
    return against + told + (answer.taken ? tr(" Its lines are taken over.") : QString());
}

Check::State SceneLoan::stateFor(const ClipDocument& clip) const
{
    const auto found = m_answers.find(&clip);
    if (found == m_answers.end() || !found->second.verdict) {
        return Check::State::Doubt;
    }
    switch (found->second.verdict->stands) {
    case CameraVerdict::Stands::Same:
        return Check::State::Good;
    case CameraVerdict::Stands::Moved:
        return Check::State::Bad;
    case CameraVerdict::Stands::Doubtful:
    case CameraVerdict::Stands::CannotTell:
        break;
    }
    return Check::State::Doubt;
}

bool SceneLoan::canCarry(const ClipDocument& clip) const
{
    const auto found = m_answers.find(&clip);
    if (found == m_answers.end() || !found->second.verdict || found->second.taken) {
        return false;
    }
    const auto stands = found->second.verdict->stands;
    return stands == CameraVerdict::Stands::Doubtful || stands == CameraVerdict::Stands::Same;
}

void SceneLoan::carry(ClipDocument& clip)
{
    if (!canCarry(clip)) {
        return;
    }
    Answer& answer = m_answers[&clip];
    answer.taken = true;
    giveLines(clip, answer.verdict->stands == CameraVerdict::Stands::Same
                        ? answer.lender.scene
                        : carriedBy(answer.lender.scene, *answer.verdict->move));
    emit changed();
}

} // namespace latemile::ui
