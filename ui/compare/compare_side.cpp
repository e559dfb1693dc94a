// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_side.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/page/clip_switch.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QStyle>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

// Around the hip, centimetres: room for a tall runner's head and a leg stretched behind.
constexpr double ahead = 95;
constexpr double behind = 95;
constexpr double above = 95;
constexpr double below = 105;

} // namespace

CompareSide::CompareSide(QWidget* parent)
    : QWidget(parent), m_player(new Player(this)), m_view(new FrameView(this)),
      m_name(headingLabel({}, this)), m_steps(new QComboBox(this)), m_place(quietLabel({}, this))
{
    m_view->setTool(&m_tool);
    m_view->setMinimumSize(240, 200);
    m_steps->setAccessibleName(tr("Step"));
    auto* head = new QHBoxLayout;
    head->setSpacing(gridStep);
    head->addWidget(m_name);
    head->addWidget(m_steps);
    head->addStretch();
    head->addWidget(m_place);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addLayout(head);
    column->addWidget(m_view, 1);
    connect(m_player, &Player::frameShown, this, [this](const Frame& frame) {
        m_view->setFrame(frame);
        cutToAthlete();
    });
    connect(m_player, &Player::lateChanged, m_view, &FrameView::setLate);
    connect(m_steps, &QComboBox::activated, this, &CompareSide::stepChosen);
}

CompareSide::~CompareSide()
{
    m_view->setTool(nullptr);
}

void CompareSide::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    m_player->setClip(clip);
    m_frame.reset();
    m_tool.setOwn({});
    if (clip == nullptr) {
        m_name->clear();
        m_view->setMessage(tr("No clip of this condition yet: set it on the Filming page."));
        fillSteps();
        return;
    }
    m_name->setText(clipName(*clip));
    m_name->setProperty("condition", QString::fromStdString(clip->clip().condition));
    m_name->style()->unpolish(m_name);
    m_name->style()->polish(m_name);
    connect(clip, &ClipDocument::stancesChanged, this, [this] {
        fillSteps();
        emit stepChosen();
    });
    connect(clip, &ClipDocument::failed, m_view, &FrameView::setMessage);
    if (!clip->fault().isEmpty()) {
        m_view->setMessage(clip->fault());
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
    m_frame = frame;
    if (!m_clip || !m_clip->isOpen() || !frame) {
        m_place->clear();
        return;
    }
    m_tool.setOwn({m_clip, *frame});
    m_player->goTo(*frame);
    const Step* shown = step();
    m_place->setText(shown == nullptr ? QString()
                                      : tr("%1 after contact")
                                            .arg(millisecondsText(m_clip->index().time(*frame) -
                                                                  shown->contact)));
    m_view->update();
}

void CompareSide::setGhost(std::optional<CompareTool::Shown> ghost)
{
    m_tool.setGhost(ghost);
    m_view->update();
}

/// The cut is taken at the step's contact and kept through the step, so that the athlete moves and
/// the ground does not.
void CompareSide::cutToAthlete()
{
    const Step* shown = step();
    if (shown == nullptr) {
        return;
    }
    const auto plane = Plane::from(m_clip->scene());
    if (!plane) {
        return;
    }
    const Mark* hip = nullptr;
    for (const auto instant : {Instant::MidStance, Instant::Contact, Instant::ToeOff}) {
        const auto frame = frameOf(*shown, instant, m_clip->index());
        hip = frame && hip == nullptr
                  ? m_clip->marking().find({*frame, BodySide::Near, Landmark::Hip})
                  : hip;
    }
    if (hip == nullptr) {
        return;
    }
    const PlanePoint centre = plane->toPlane(hip->at);
    const PixelPoint a = plane->toPixel({centre.x - behind, centre.y + above});
    const PixelPoint b = plane->toPixel({centre.x + ahead, centre.y - below});
    m_view->fitPart(QRectF(QPointF(a.u, a.v), QPointF(b.u, b.v)).normalized());
}

} // namespace latemile::ui
