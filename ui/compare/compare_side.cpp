// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_side.hpp"

#include "core/scene/plane.hpp"
#include "ui/compare/athlete_clips.hpp"
#include "ui/compare/ink_swatch.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/athlete_part.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace latemile::ui {

CompareSide::CompareSide(QWidget* parent)
    : QWidget(parent), m_player(new Player(this)), m_view(new FrameView(this)),
      m_swatch(new InkSwatch(this)), m_clips(new QComboBox(this)), m_steps(new QComboBox(this)),
      m_place(quietLabel({}, this))
{
    m_view->setTool(&m_tool);
    m_view->setMinimumSize(240, 200);
    m_clips->setAccessibleName(tr("Clip"));
    m_clips->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_clips->setMinimumContentsLength(18);
    m_clips->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_steps->setAccessibleName(tr("Step"));
    m_steps->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    auto* head = new QHBoxLayout;
    head->setSpacing(gridStep);
    head->addWidget(m_swatch);
    head->addWidget(m_clips, 1);
    // Two lines are kept free, so that no picture jumps and all stay of one size.
    m_place->setProperty("rank", "small");
    m_place->setWordWrap(true);
    m_place->setFixedHeight(4 * gridStep);
    auto* foot = new QHBoxLayout;
    foot->setSpacing(gridStep);
    foot->addWidget(m_steps);
    foot->addWidget(m_place, 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep / 2);
    column->addLayout(head);
    column->addWidget(m_view, 1);
    column->addLayout(foot);
    connect(m_player, &Player::frameShown, this, [this](const Frame& frame) {
        m_view->setFrame(frame);
        cutToAthlete();
    });
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_view, &FrameView::movedByHand, this, &CompareSide::movedByHand);
    connect(m_clips, &QComboBox::activated, this, &CompareSide::clipChosen);
    connect(m_steps, &QComboBox::activated, this, &CompareSide::stepChosen);
}

CompareSide::~CompareSide()
{
    m_view->setTool(nullptr);
}

void CompareSide::offer(const AthleteClips& clips)
{
    const QString before = chosen();
    m_clips->clear();
    for (const AthleteClips::Entry& entry : clips.entries()) {
        m_clips->addItem(entry.name, entry.key);
    }
    choose(before);
}

void CompareSide::choose(const QString& key)
{
    m_clips->setCurrentIndex(m_clips->findData(key));
    m_clips->setToolTip(m_clips->currentText());
}

QString CompareSide::chosen() const
{
    return m_clips->currentData().toString();
}

void CompareSide::setClip(ClipDocument* clip, const FigureInk& ink)
{
    m_ink = ink;
    m_swatch->setInk(ink);
    if (clip == m_clip && clip != nullptr) {
        return;
    }
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
        disconnect(m_clip, nullptr, m_view, nullptr);
    }
    m_clip = clip;
    m_swatch->setVisible(clip != nullptr);
    m_steps->setVisible(clip != nullptr);
    m_player->setClip(clip);
    m_frame.reset();
    m_cutFor.reset();
    m_tool.setOwn(std::nullopt);
    m_tool.setGhost(std::nullopt, GhostAt::None);
    m_view->setMessage(clip != nullptr        ? clip->fault()
                       : m_clips->count() > 0 ? tr("Choose a clip above.")
                                              : tr("No clip of this athlete yet: add one on the "
                                                   "Filming page."));
    if (clip != nullptr) {
        connect(clip, &ClipDocument::stancesChanged, this, [this] {
            fillSteps();
            emit stepChosen();
        });
        connect(clip, &ClipDocument::failed, m_view, &FrameView::setMessage);
    }
    fillSteps();
}

void CompareSide::fillSteps()
{
    const int before = m_steps->currentData().toInt();
    m_steps->clear();
    if (m_clip) {
        for (const Step& step : m_clip->steps()) {
            m_steps->addItem(tr("Step %1, %2").arg(step.number.value).arg(wordFor(step.foot)),
                             step.number.value);
        }
    }
    const int row = m_steps->findData(before);
    m_steps->setCurrentIndex(row < 0 && m_steps->count() > 0 ? 0 : row);
}

const Step* CompareSide::step() const
{
    const int row = m_steps->currentIndex();
    return m_clip && row >= 0 && row < static_cast<int>(m_clip->steps().size())
               ? &m_clip->steps()[static_cast<std::size_t>(row)]
               : nullptr;
}

void CompareSide::chooseStep(StepNumber number)
{
    m_steps->setCurrentIndex(m_steps->findData(number.value));
}

void CompareSide::showFrame(std::optional<FrameNumber> frame)
{
    m_frame = m_clip && m_clip->isOpen() ? frame : std::nullopt;
    m_tool.setOwn(shown());
    if (m_frame) {
        m_player->goTo(*m_frame);
        cutToAthlete();
    }
    tellPlace();
    m_view->update();
}

std::optional<CompareTool::Shown> CompareSide::shown() const
{
    return m_clip && m_frame ? std::optional(CompareTool::Shown{m_clip, *m_frame, m_ink})
                             : std::nullopt;
}

void CompareSide::setGhost(const std::optional<CompareTool::Shown>& ghost, GhostAt at)
{
    m_tool.setGhost(ghost, at);
    tellPlace();
    m_view->update();
}

void CompareSide::tellPlace()
{
    QStringList told;
    const Step* shownStep = step();
    if (m_clip && m_frame && shownStep != nullptr) {
        told.append(
            tr("%1 after contact")
                .arg(millisecondsText(m_clip->index().time(*m_frame) - shownStep->contact)));
        if (m_cut.isEmpty()) {
            told.append(tr("no scale: not cut alike"));
        }
    } else if (m_clip && m_clip->isOpen()) {
        told.append(m_clip->steps().empty() ? tr("no step marked yet")
                                            : tr("not marked on this step"));
    }
    if (const QString fault = m_tool.ghostFault(); !fault.isEmpty()) {
        told.append(fault);
    }
    m_place->setText(told.join(QStringLiteral("  ·  ")));
}

/// The cut is taken at the step's contact and kept through the step, so that the athlete moves and
/// the ground does not; and it stays where the coach zoomed until another step is chosen.
void CompareSide::cutToAthlete()
{
    const Step* shownStep = step();
    if (shownStep == nullptr || !m_clip->isOpen()) {
        return;
    }
    const auto now = std::pair<const ClipDocument*, StepNumber>(m_clip, shownStep->number);
    if (m_cutFor == now) {
        return;
    }
    m_cutFor = now;
    const auto contact = frameOf(*shownStep, Instant::Contact, m_clip->index());
    m_cut = contact ? athletePart(*m_clip, *contact).value_or(QRectF()) : QRectF();
    if (m_cut.isEmpty()) {
        m_view->fit();
    } else {
        m_view->fitPart(m_cut);
    }
}

std::optional<double> CompareSide::pixelsPerCm() const
{
    if (!m_clip || m_cut.isEmpty()) {
        return std::nullopt;
    }
    const auto plane = Plane::from(m_clip->scene());
    if (!plane || !plane->hasScale()) {
        return std::nullopt;
    }
    return 1.0 / plane->cmPerPixel({m_cut.center().x(), m_cut.center().y()});
}

std::optional<QRectF> CompareSide::sightInCm() const
{
    const auto scale = pixelsPerCm();
    if (!scale) {
        return std::nullopt;
    }
    const QRectF sight = m_view->partInSight();
    return QRectF((sight.topLeft() - m_cut.center()) / *scale, sight.size() / *scale);
}

void CompareSide::setSightInCm(const QRectF& sight)
{
    if (const auto scale = pixelsPerCm()) {
        m_view->fitPart(QRectF(m_cut.center() + sight.topLeft() * *scale, sight.size() * *scale));
    }
}

} // namespace latemile::ui
