// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_form.hpp"

#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QSignalBlocker>

#include <array>

namespace latemile::ui {
namespace {

/// What a coach types; what no camera can be, core refuses with a sentence.
struct Range {
    double least{};
    double most{};
    double step{1.0};
    int decimals{};
};

QDoubleSpinBox* number(const Range& range, const QString& unit, const QString& name,
                       QWidget* parent)
{
    auto* field = new QDoubleSpinBox(parent);
    field->setRange(range.least, range.most);
    field->setSingleStep(range.step);
    field->setDecimals(range.decimals);
    field->setSuffix(unit);
    field->setAccessibleName(name);
    return field;
}

/// The value a field begins with when the coach says the lens in another way.
double firstValueOf(FieldBy by)
{
    switch (by) {
    case FieldBy::EquivalentFocal:
        return 26.0;
    case FieldBy::Degrees:
        return 70.0;
    case FieldBy::WidthAtRunner:
        break;
    }
    return 400.0;
}

constexpr std::array pictures{QSize(1280, 720),  QSize(1920, 1080), QSize(2704, 1520),
                              QSize(3840, 2160), QSize(720, 1280),  QSize(1080, 1920),
                              QSize(2160, 3840)};

} // namespace

SetUpForm::SetUpForm(QWidget* parent)
    : QWidget(parent),
      m_distance(number({0.5, 50, 0.1, 2}, tr(" m"), tr("Distance to the runner"), this)),
      m_fieldBy(new QComboBox(this)), m_field(number({1, 3000, 1, 0}, {}, tr("Lens"), this)),
      m_picture(new QComboBox(this)),
      m_rate(number({10, 2000, 10, 0}, tr(" frames/s"), tr("Frame rate"), this)),
      m_shutter(new QSpinBox(this)), m_ground(new QComboBox(this)),
      m_speed(number({0.5, 13, 0.1, 2}, tr(" m/s"), tr("Speed"), this)),
      m_pole(number({10, 1000, 10, 0}, tr(" cm"), tr("Pole of known length"), this)),
      m_stature(number({50, 260, 1, 0}, tr(" cm"), tr("Athlete's height"), this))
{
    m_fieldBy->addItem(tr("Lens, 35 mm equivalent"));
    m_fieldBy->addItem(tr("Field of view, across"));
    m_fieldBy->addItem(tr("Width seen at the runner"));
    m_fieldBy->setAccessibleName(tr("How the lens is known"));
    for (const QSize size : pictures) {
        m_picture->addItem(QStringLiteral("%1 × %2").arg(size.width()).arg(size.height()), size);
    }
    m_picture->setAccessibleName(tr("Picture"));
    m_ground->addItem(tr("on a belt"), true);
    m_ground->addItem(tr("over ground"), false);
    m_ground->setAccessibleName(tr("Where the athlete runs"));
    m_shutter->setRange(10, 32000);
    m_shutter->setSingleStep(250);
    m_shutter->setPrefix(QStringLiteral("1/"));
    m_shutter->setSuffix(tr(" s"));
    m_shutter->setAccessibleName(tr("Shutter"));
    build();
    connect(m_fieldBy, &QComboBox::currentIndexChanged, this, &SetUpForm::takeFieldBy);
    connect(m_picture, &QComboBox::currentIndexChanged, this, &SetUpForm::changed);
    connect(m_ground, &QComboBox::currentIndexChanged, this, &SetUpForm::changed);
    connect(m_shutter, &QSpinBox::valueChanged, this, &SetUpForm::changed);
    for (QDoubleSpinBox* field : {m_distance, m_field, m_rate, m_speed, m_pole, m_stature}) {
        connect(field, &QDoubleSpinBox::valueChanged, this, &SetUpForm::changed);
    }
}

void SetUpForm::build()
{
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, 0, 0, 0);
    form->setSpacing(gridStep);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->addRow(tr("Distance"), m_distance);
    form->addRow(tr("Known by"), m_fieldBy);
    form->addRow(QString(), m_field);
    form->addRow(tr("Picture"), m_picture);
    form->addRow(tr("Frame rate"), m_rate);
    form->addRow(tr("Shutter"), m_shutter);
    form->addRow(tr("Runs"), m_ground);
    form->addRow(tr("Speed"), m_speed);
    form->addRow(tr("Pole"), m_pole);
    form->addRow(tr("Height"), m_stature);
}

void SetUpForm::takeFieldBy()
{
    const auto by = static_cast<FieldBy>(m_fieldBy->currentIndex());
    {
        const QSignalBlocker quiet(m_field);
        m_field->setSuffix(by == FieldBy::EquivalentFocal ? tr(" mm")
                           : by == FieldBy::Degrees       ? tr("°")
                                                          : tr(" cm"));
        m_field->setValue(firstValueOf(by));
    }
    emit changed();
}

CameraSetUp SetUpForm::setUp() const
{
    const QSize picture = m_picture->currentData().toSize();
    return {.distanceCm = 100.0 * m_distance->value(),
            .fieldBy = static_cast<FieldBy>(m_fieldBy->currentIndex()),
            .field = m_field->value(),
            .width = picture.width(),
            .height = picture.height(),
            .captureRate = m_rate->value(),
            .exposure = 1.0 / m_shutter->value(),
            .speed = m_speed->value(),
            .onBelt = m_ground->currentData().toBool(),
            .poleCm = m_pole->value(),
            .statureCm = m_stature->value()};
}

void SetUpForm::setSetUp(const CameraSetUp& setUp)
{
    {
        const QSignalBlocker quiet(this);
        m_distance->setValue(setUp.distanceCm / 100.0);
        m_fieldBy->setCurrentIndex(static_cast<int>(setUp.fieldBy));
        takeFieldBy();
        m_field->setValue(setUp.field);
        const QSize size(setUp.width, setUp.height);
        int row = m_picture->findData(size);
        if (row < 0) {
            m_picture->addItem(QStringLiteral("%1 × %2").arg(size.width()).arg(size.height()),
                               size);
            row = m_picture->count() - 1;
        }
        m_picture->setCurrentIndex(row);
        m_rate->setValue(setUp.captureRate);
        m_shutter->setValue(qRound(1.0 / setUp.exposure));
        m_ground->setCurrentIndex(setUp.onBelt ? 0 : 1);
        m_speed->setValue(setUp.speed);
        m_pole->setValue(setUp.poleCm);
        m_stature->setValue(setUp.statureCm);
    }
    emit changed();
}

} // namespace latemile::ui
