// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scene_part.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/filming/ghost_controls.hpp"
#include "ui/filming/part_layout.hpp"
#include "ui/filming/scale_part.hpp"
#include "ui/filming/scene_loan.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QFormLayout>
#include <QPushButton>
#include <QUndoStack>
#include <QVBoxLayout>

namespace latemile::ui {

ScenePart::ScenePart(SceneTool& tool, SceneLoan& loan, LastVisitGhost& ghost, QWidget* parent)
    : QWidget(parent), m_tool(tool), m_loan(loan)
{
    build(ghost);
    connect(m_scale, &ScalePart::drawWanted, this, &ScenePart::draw);
    connect(&loan, &SceneLoan::changed, this, &ScenePart::tellLoan);
    connect(&tool, &SceneTool::drawn, this, [this] {
        m_hint->setText(tr("Drag the ends to set them to the pixel, or choose one with E and move "
                           "it with the arrow keys."));
    });
    fill();
}

void ScenePart::build(LastVisitGhost& ghost)
{
    m_hint = quietLabel({}, this);
    m_hint->setWordWrap(true);
    auto* column = columnIn(this);
    column->addWidget(buildCamera());
    column->addWidget(rule(this));
    column->addWidget(buildLoan());
    m_scale = new ScalePart(m_tool, this);
    column->addWidget(m_scale);
    column->addWidget(buildUpright());
    column->addWidget(m_hint);
    column->addWidget(rule(this));
    m_ghost = new GhostControls(m_tool, ghost, this);
    column->addWidget(m_ghost);
    column->addStretch();
}

QWidget* ScenePart::buildCamera()
{
    auto* part = new QWidget(this);
    m_view = new QComboBox(part);
    m_travel = new QComboBox(part);
    for (const auto view : {View::LeftSide, View::RightSide, View::Rear, View::Front}) {
        m_view->addItem(capital(wordFor(view)), static_cast<int>(view));
    }
    for (const auto travel : {Travel::Left, Travel::Right}) {
        m_travel->addItem(capital(wordFor(travel)), static_cast<int>(travel));
    }
    m_view->setAccessibleName(tr("Camera"));
    m_travel->setAccessibleName(tr("Runs in the picture"));
    m_fault = plainLabel({}, part);
    m_fault->setWordWrap(true);
    setState(*m_fault, "bad");
    auto* form = new QFormLayout;
    form->setSpacing(gridStep);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->addRow(tr("Camera sees"), m_view);
    form->addRow(tr("Runs"), m_travel);
    auto* column = columnIn(part);
    column->addLayout(form);
    column->addWidget(m_fault);
    connect(m_view, &QComboBox::activated, this, [this] {
        // A camera at the athlete's left sees a runner who goes left.
        const auto view = static_cast<View>(m_view->currentData().toInt());
        if (isSideView(view)) {
            m_travel->setCurrentIndex(view == View::LeftSide ? 0 : 1);
        }
        takeView();
    });
    connect(m_travel, &QComboBox::activated, this, &ScenePart::takeView);
    return part;
}

QWidget* ScenePart::buildUpright()
{
    auto* part = new QWidget(this);
    auto* column = columnIn(part);
    column->addWidget(headingLabel(tr("Upright and ground"), part));
    const auto add = [&](const QString& draws, const QString& removes, SceneLine line) {
        auto* buttons = new QWidget(part);
        auto* button = new QPushButton(draws, buttons);
        auto* away = new QPushButton(tr("Remove"), buttons);
        away->setAccessibleName(removes);
        auto* row = rowIn(buttons);
        row->addWidget(button);
        row->addStretch();
        row->addWidget(away);
        column->addWidget(buttons);
        connect(button, &QPushButton::clicked, this, [this, line] { draw(line); });
        connect(away, &QPushButton::clicked, this, [this, line] { remove(line); });
        return away;
    };
    m_removePlumb = add(tr("Draw plumb line"), tr("Remove plumb line"), SceneLine::Plumb);
    m_removeGround = add(tr("Draw ground"), tr("Remove ground line"), SceneLine::Ground);
    return part;
}

QWidget* ScenePart::buildLoan()
{
    auto* part = new QWidget(this);
    m_loanTold = plainLabel({}, part);
    m_loanTold->setWordWrap(true);
    auto* buttons = new QWidget(part);
    m_compare = new QPushButton(tr("Lines of another clip"), buttons);
    m_compare->setToolTip(tr("Compares the background with the clip before and takes its lines "
                             "over where the camera was not touched"));
    m_carry = new QPushButton(tr("Carry its lines along"), buttons);
    auto* row = rowIn(buttons);
    row->addWidget(m_compare);
    row->addWidget(m_carry);
    row->addStretch();
    auto* column = columnIn(part);
    column->addWidget(m_loanTold);
    column->addWidget(buttons);
    connect(m_compare, &QPushButton::clicked, this, [this] {
        if (m_clip) {
            m_loan.offer(*m_clip, SceneLoan::When::Asked);
        }
    });
    connect(m_carry, &QPushButton::clicked, this, [this] {
        if (m_clip) {
            m_loan.carry(*m_clip);
        }
    });
    return part;
}

void ScenePart::draw(SceneLine line)
{
    m_tool.draw(line);
    switch (line) {
    case SceneLine::Scale:
        m_hint->setText(tr("Press at one end of something of known length at the runner, let go at "
                           "the other; then type its length. Enter puts a line into the middle."));
        break;
    case SceneLine::Plumb:
        m_hint->setText(tr("Press and let go along something upright: a door frame, a pole, a "
                           "hanging cord. Enter puts a line into the middle."));
        break;
    case SceneLine::Ground:
        m_hint->setText(tr("Press where the sole meets the ground under the runner."));
        break;
    case SceneLine::Corners:
        m_hint->setText(tr("Press at one corner of a rectangle in the runner's plane, let go at "
                           "the opposite one; then drag each corner and type the two sides."));
        break;
    }
}

void ScenePart::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    setEnabled(clip != nullptr);
    if (clip != nullptr) {
        connect(clip, &ClipDocument::sceneChanged, this, &ScenePart::fill);
    }
    m_hint->setText(tr("Drag the ends of a line to set them to the pixel; the wheel zooms."));
    fill();
    tellLoan();
    m_scale->setClip(clip);
    m_ghost->tell();
}

void ScenePart::fill()
{
    if (!m_clip) {
        return;
    }
    m_filling = true;
    const Scene& scene = m_clip->scene();
    m_view->setCurrentIndex(m_view->findData(static_cast<int>(scene.view)));
    m_travel->setCurrentIndex(m_travel->findData(static_cast<int>(scene.travel)));
    m_travel->setEnabled(isSideView(scene.view));
    const auto plane = Plane::from(scene);
    m_fault->setText(plane ? QString() : fromUtf8(plane.error().sentence));
    m_fault->setVisible(!plane);
    m_removePlumb->setEnabled(scene.plumb.has_value());
    m_removeGround->setEnabled(scene.groundV.has_value());
    m_filling = false;
}

void ScenePart::tellLoan()
{
    const QString told = m_clip ? m_loan.sentenceFor(*m_clip) : QString();
    m_loanTold->setText(told);
    m_loanTold->setVisible(!told.isEmpty());
    m_compare->setEnabled(m_clip && !m_loan.isBusy());
    m_carry->setVisible(m_clip && m_loan.canCarry(*m_clip));
    if (m_clip) {
        const auto state = m_loan.stateFor(*m_clip);
        setState(*m_loanTold, std::string(nameOf(state)).c_str());
    }
}

void ScenePart::push(const Scene& scene, const QString& name)
{
    if (m_clip && !m_filling && scene != m_clip->scene()) {
        m_clip->history().push(new SetScene(*m_clip, scene, name, ++m_gesture));
    }
}

void ScenePart::takeView()
{
    if (m_clip) {
        Scene scene = m_clip->scene();
        scene.view = static_cast<View>(m_view->currentData().toInt());
        scene.travel = static_cast<Travel>(m_travel->currentData().toInt());
        push(scene, tr("set camera side"));
    }
}

void ScenePart::remove(SceneLine line)
{
    if (!m_clip) {
        return;
    }
    Scene scene = m_clip->scene();
    if (line == SceneLine::Plumb) {
        scene.plumb.reset();
    } else {
        scene.groundV.reset();
    }
    push(scene, tr("remove %1").arg(nameOf(line)));
}

} // namespace latemile::ui
