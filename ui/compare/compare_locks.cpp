// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_locks.hpp"

#include "ui/text/words.hpp"
#include "ui/theme/icons.hpp"
#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QComboBox>
#include <QHBoxLayout>
#include <QSignalBlocker>
#include <QSlider>
#include <QToolButton>

#include <cmath>

namespace latemile::ui {
namespace {

constexpr int phaseParts = 200;
/// A step of a third of a second is watched a quarter as fast.
constexpr double secondsAStep = 1.4;

} // namespace

CompareLocks::CompareLocks(QWidget* parent)
    : QWidget(parent), m_instants(new QButtonGroup(this)), m_play(new QToolButton(this)),
      m_phase(new QSlider(Qt::Horizontal, this)), m_ghost(new QComboBox(this))
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    buildInstants();
    row->addSpacing(gridStep);
    buildPhase();
    row->addWidget(m_play);
    row->addWidget(m_phase, 1);
    row->addSpacing(gridStep);
    m_ghost->addItem(tr("Ghost hip on hip"), static_cast<int>(GhostAt::Hip));
    m_ghost->addItem(tr("Ghost foot on foot"), static_cast<int>(GhostAt::StanceFoot));
    m_ghost->addItem(tr("No ghost"), static_cast<int>(GhostAt::None));
    m_ghost->setAccessibleName(tr("Ghost of the other clip"));
    row->addWidget(m_ghost);
    connect(m_ghost, &QComboBox::currentIndexChanged, this, &CompareLocks::ghostChanged);
    m_tick.setInterval(16);
    connect(&m_tick, &QTimer::timeout, this, [this] {
        const double turns = static_cast<double>(m_clock.elapsed()) / 1000.0 / secondsAStep;
        m_phase->setValue(static_cast<int>(std::fmod(m_phaseAtStart + turns, 1.0) * phaseParts));
    });
}

void CompareLocks::buildInstants()
{
    for (const auto instant : {Instant::Contact, Instant::MidStance, Instant::ToeOff}) {
        auto* button = new QToolButton(this);
        button->setText(capital(wordFor(instant)));
        button->setCheckable(true);
        m_instants->addButton(button, static_cast<int>(instant));
        layout()->addWidget(button);
    }
    m_instants->button(static_cast<int>(Instant::Contact))->setChecked(true);
    connect(m_instants, &QButtonGroup::idClicked, this, [this] {
        setPlaying(false);
        emit changed();
    });
}

void CompareLocks::buildPhase()
{
    m_phase->setRange(0, phaseParts);
    m_phase->setAccessibleName(tr("Share of the step"));
    m_phase->setToolTip(tr("Share of the step: all sides are shown at like moments"));
    m_play->setIcon(iconNamed(QStringLiteral("play")));
    m_play->setText(tr("Play in step"));
    m_play->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    m_play->setCheckable(true);
    connect(m_play, &QToolButton::toggled, this, &CompareLocks::setPlaying);
    connect(m_phase, &QSlider::valueChanged, this, [this] {
        leaveInstant();
        emit changed();
    });
}

void CompareLocks::leaveInstant()
{
    if (QAbstractButton* button = m_instants->checkedButton()) {
        m_instants->setExclusive(false);
        button->setChecked(false);
        m_instants->setExclusive(true);
    }
}

std::optional<Instant> CompareLocks::instant() const
{
    return m_instants->checkedId() < 0
               ? std::nullopt
               : std::optional(static_cast<Instant>(m_instants->checkedId()));
}

double CompareLocks::phase() const
{
    return m_phase->value() / double{phaseParts};
}

GhostAt CompareLocks::ghost() const
{
    return static_cast<GhostAt>(m_ghost->currentData().toInt());
}

void CompareLocks::setPlaying(bool playing)
{
    const QSignalBlocker quiet(m_play);
    m_play->setChecked(playing);
    m_play->setIcon(iconNamed(playing ? QStringLiteral("pause") : QStringLiteral("play")));
    if (playing) {
        m_phaseAtStart = phase();
        m_clock.start();
        m_tick.start();
    } else {
        m_tick.stop();
    }
}

} // namespace latemile::ui
