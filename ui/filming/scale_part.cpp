// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/scale_part.hpp"

#include "core/scene/scale_lines.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/filming/common_lengths.hpp"
#include "ui/filming/part_layout.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/theme/tokens.hpp"

#include <QDoubleSpinBox>
#include <QInputDialog>
#include <QMenu>
#include <QPushButton>
#include <QToolButton>
#include <QUndoStack>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

QDoubleSpinBox* lengthField(const QString& name, QWidget* parent)
{
    auto* field = new QDoubleSpinBox(parent);
    field->setRange(1, 5000);
    field->setDecimals(1);
    field->setSuffix(QObject::tr(" cm"));
    field->setKeyboardTracking(false);
    field->setAccessibleName(name);
    return field;
}

} // namespace

ScalePart::ScalePart(SceneTool& tool, QWidget* parent) : QWidget(parent), m_tool(tool)
{
    build();
    m_tool.setLengths(SceneLine::Scale, {.width = lastLengthCm(), .height = 0});
}

void ScalePart::build()
{
    m_noScale = quietLabel(tr("No scale: angles and times only."), this);
    auto* lengths = new QWidget(this);
    m_lengths = columnIn(lengths);
    m_lengths->setSpacing(gridStep / 2);
    auto* column = columnIn(this);
    column->addWidget(headingLabel(tr("Scale"), this));
    column->addWidget(m_noScale);
    column->addWidget(lengths);
    column->addWidget(buildCorners());
    column->addWidget(buildButtons());
}

QWidget* ScalePart::buildCorners()
{
    m_corners = new QWidget(this);
    m_cornersWide = lengthField(tr("Width between the corners"), m_corners);
    m_cornersHigh = lengthField(tr("Height between the corners"), m_corners);
    auto* away = new QPushButton(tr("Remove"), m_corners);
    away->setAccessibleName(tr("Remove corners"));
    auto* sides = rowIn(m_corners);
    sides->addWidget(m_cornersWide, 1);
    sides->addWidget(plainLabel(QStringLiteral("×"), m_corners));
    sides->addWidget(m_cornersHigh, 1);
    sides->addWidget(away);
    connect(away, &QPushButton::clicked, this, &ScalePart::removeCorners);
    for (QDoubleSpinBox* field : {m_cornersWide, m_cornersHigh}) {
        connect(field, &QDoubleSpinBox::valueChanged, this, &ScalePart::takeCorners);
    }
    return m_corners;
}

QWidget* ScalePart::buildButtons()
{
    auto* buttons = new QWidget(this);
    auto* line = new QPushButton(tr("Draw scale line"), buttons);
    auto* corners = new QPushButton(tr("Draw corners"), buttons);
    m_anglesOnly = new QPushButton(tr("No scale"), buttons);
    auto* row = rowIn(buttons);
    row->addWidget(line);
    row->addWidget(corners);
    row->addWidget(m_anglesOnly);
    row->addStretch();
    connect(line, &QPushButton::clicked, this, [this] { emit drawWanted(SceneLine::Scale); });
    connect(corners, &QPushButton::clicked, this, [this] { emit drawWanted(SceneLine::Corners); });
    connect(m_anglesOnly, &QPushButton::clicked, this, &ScalePart::removeScale);
    return buttons;
}

void ScalePart::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    if (clip != nullptr) {
        connect(clip, &ClipDocument::sceneChanged, this, &ScalePart::fill);
    }
    fill();
}

void ScalePart::fill()
{
    if (!m_clip) {
        return;
    }
    m_filling = true;
    const Scene& scene = m_clip->scene();
    m_noScale->setVisible(!scene.scale && !scene.plane);
    m_noScale->setText(scene.scaleByBelt
                           ? tr("Scale from the belt, once the foot is marked in mid-stance.")
                           : tr("No scale: angles and times only."));
    m_anglesOnly->setEnabled(scene.scale || scene.plane || scene.scaleByBelt);
    fillLengths();
    fillCorners();
    m_filling = false;
}

void ScalePart::fillLengths()
{
    const auto lines = scaleLinesOf(m_clip->scene());
    if (lines.size() != m_lengthFields.size()) {
        while (QLayoutItem* item = m_lengths->takeAt(0)) {
            // A row may be taking itself away: it goes when its button has answered.
            item->widget()->hide();
            item->widget()->deleteLater();
            delete item;
        }
        m_lengthFields.clear();
        for (std::size_t i = 0; i < lines.size(); ++i) {
            addLengthRow(i);
        }
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        m_lengthFields[i]->setValue(lines[i].lengthCm);
    }
}

void ScalePart::addLengthRow(std::size_t index)
{
    auto* line = new QWidget(this);
    const int shown = static_cast<int>(index) + 1;
    auto* field = lengthField(tr("Length of scale line %1").arg(shown), line);
    auto* common = new QToolButton(line);
    common->setText(tr("Common"));
    common->setAccessibleName(tr("Common lengths for scale line %1").arg(shown));
    common->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(common);
    common->setMenu(menu);
    auto* away = new QPushButton(tr("Remove"), line);
    away->setAccessibleName(tr("Remove scale line %1").arg(shown));
    auto* row = rowIn(line);
    row->addWidget(plainLabel(tr("Line %1").arg(shown), line));
    row->addWidget(field, 1);
    row->addWidget(common);
    row->addWidget(away);
    m_lengths->addWidget(line);
    m_lengthFields.push_back(field);
    connect(menu, &QMenu::aboutToShow, this,
            [this, menu, index] { fillCommonLengths(*menu, index); });
    connect(field, &QDoubleSpinBox::valueChanged, this,
            [this, index](double cm) { takeLength(index, cm); });
    connect(away, &QPushButton::clicked, this, [this, index] { removeLine(index); });
}

void ScalePart::fillCommonLengths(QMenu& menu, std::size_t index)
{
    menu.clear();
    const auto text = [](const CommonLength& length) {
        return QStringLiteral("%1   %2 cm").arg(length.name, numberText(length.cm, 1));
    };
    for (const CommonLength& length : commonLengths()) {
        connect(menu.addAction(text(length)), &QAction::triggered, this,
                [this, index, length] { takeLength(index, length.cm); });
    }
    menu.addSeparator();
    connect(menu.addAction(tr("Keep this length under a name…")), &QAction::triggered, this,
            [this, index] {
                const QString name = QInputDialog::getText(this, tr("Common length"),
                                                           tr("What is it the length of?"));
                if (!name.trimmed().isEmpty()) {
                    keepCommonLength({name.trimmed(), m_lengthFields[index]->value()});
                }
            });
    QMenu* forget = menu.addMenu(tr("Forget"));
    for (const CommonLength& length : commonLengths()) {
        connect(forget->addAction(text(length)), &QAction::triggered, this, [length] {
            keepCommonLength({length.name, 0.0});
        });
    }
}

void ScalePart::fillCorners()
{
    const auto& plane = m_clip->scene().plane;
    m_corners->setVisible(plane.has_value());
    if (plane) {
        m_cornersWide->setValue(plane->cm[1][0] - plane->cm[0][0]);
        m_cornersHigh->setValue(plane->cm[2][1] - plane->cm[1][1]);
    }
}

void ScalePart::takeLength(std::size_t index, double cm)
{
    if (!m_clip || m_filling) {
        return;
    }
    auto lines = scaleLinesOf(m_clip->scene());
    if (index < lines.size()) {
        lines[index].lengthCm = cm;
        rememberLastLength(cm);
        m_tool.setLengths(SceneLine::Scale, {.width = cm, .height = 0});
        push(withScaleLines(m_clip->scene(), lines), tr("set scale length"));
    }
}

void ScalePart::takeCorners()
{
    if (!m_clip || m_filling || !m_clip->scene().plane) {
        return;
    }
    const double wide = m_cornersWide->value();
    const double high = m_cornersHigh->value();
    Scene scene = m_clip->scene();
    scene.plane->cm = {{{0, 0}, {wide, 0}, {wide, high}, {0, high}}};
    m_tool.setLengths(SceneLine::Corners, {.width = wide, .height = high});
    push(scene, tr("set corners"));
}

void ScalePart::removeScale()
{
    if (m_clip) {
        Scene scene = withScaleLines(m_clip->scene(), {});
        scene.plane.reset();
        scene.scaleByBelt = false;
        push(scene, tr("use angles only"));
    }
}

void ScalePart::removeLine(std::size_t index)
{
    if (!m_clip) {
        return;
    }
    auto lines = scaleLinesOf(m_clip->scene());
    if (index < lines.size()) {
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(index));
        push(withScaleLines(m_clip->scene(), lines), tr("remove scale line"));
    }
}

void ScalePart::removeCorners()
{
    if (m_clip) {
        Scene scene = m_clip->scene();
        scene.plane.reset();
        push(scene, tr("remove corners"));
    }
}

void ScalePart::push(const Scene& scene, const QString& name)
{
    if (m_clip && !m_filling && scene != m_clip->scene()) {
        m_clip->history().push(new SetScene(*m_clip, scene, name, ++m_gesture));
    }
}

} // namespace latemile::ui
