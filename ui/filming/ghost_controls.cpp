// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/ghost_controls.hpp"

#include "ui/filming/last_visit_ghost.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/page/labels.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QSettings>
#include <QSlider>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

const auto key = QStringLiteral("filming/ghost_percent");

} // namespace

GhostControls::GhostControls(SceneTool& tool, LastVisitGhost& ghost, QWidget* parent)
    : QWidget(parent), m_tool(tool), m_ghost(ghost),
      m_box(new QCheckBox(tr("Last visit over the picture"), this)),
      m_opacity(new QSlider(Qt::Horizontal, this)), m_told(quietLabel({}, this))
{
    m_opacity->setRange(10, 90);
    m_opacity->setValue(QSettings().value(key, 50).toInt());
    m_opacity->setAccessibleName(tr("How much of the last visit shows"));
    m_told->setWordWrap(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_box);
    column->addWidget(m_opacity);
    column->addWidget(m_told);
    connect(m_box, &QCheckBox::toggled, this, [this](bool on) {
        emit wanted(on);
        tell();
    });
    connect(m_opacity, &QSlider::valueChanged, this, [this](int percent) {
        QSettings().setValue(key, percent);
        tell();
    });
    connect(&m_ghost, &LastVisitGhost::found, this, &GhostControls::tell);
    connect(&m_ghost, &LastVisitGhost::missing, this, [this](const QString& sentence) {
        tell();
        m_told->setText(sentence);
        m_told->setVisible(m_box->isChecked());
    });
    tell();
}

void GhostControls::tell()
{
    const bool shown = m_box->isChecked() && !m_ghost.picture().isNull();
    m_tool.setGhost(shown ? m_ghost.picture() : QImage(), m_opacity->value() / 100.0);
    m_opacity->setVisible(m_box->isChecked());
    m_told->setVisible(shown);
    m_told->setText(tr("The first frame of %1: move the camera until both lie on each other.")
                        .arg(m_ghost.date()));
}

} // namespace latemile::ui
