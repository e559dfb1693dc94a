// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/clip_form.hpp"

#include "core/scene/speed.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_details.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QSettings>
#include <QUndoStack>

namespace latemile::ui {
namespace {

/// The lowest value stands for "not said".
QDoubleSpinBox* numberField(double lowest, double highest, int decimals, const QString& unit,
                            const QString& name, QWidget* parent)
{
    auto* field = new QDoubleSpinBox(parent);
    field->setRange(lowest - 1, highest);
    field->setDecimals(decimals);
    field->setSuffix(unit);
    field->setSpecialValueText(QObject::tr("not said"));
    field->setAccessibleName(name);
    field->setKeyboardTracking(false);
    return field;
}

std::optional<double> valueOf(const QDoubleSpinBox& field)
{
    return field.value() <= field.minimum() ? std::nullopt : std::optional(field.value());
}

void put(QDoubleSpinBox& field, const std::optional<double>& value)
{
    field.setValue(value.value_or(field.minimum()));
}

} // namespace

ClipForm::ClipForm(QWidget* parent)
    : QWidget(parent), m_condition(new QComboBox(this)),
      m_minute(numberField(0, 1000, 0, tr(" min"), tr("Minute into the run"), this)),
      m_speed(new QLineEdit(this)), m_unit(new QComboBox(this)), m_speedTold(plainLabel({}, this)),
      m_incline(numberField(-30, 30, 1, tr(" %"), tr("Incline"), this)),
      m_shoes(new QLineEdit(this)),
      m_exertion(numberField(0, 10, 0, tr(" of 10"), tr("Exertion"), this)),
      m_pain(new QComboBox(this)), m_caution(plainLabel({}, this))
{
    build();
    connectFields();
}

void ClipForm::build()
{
    for (const char* word : {"fresh", "fatigued", "other"}) {
        m_condition->addItem(capital(wordForCondition(word)), QString::fromLatin1(word));
    }
    for (const auto unit : allSpeedUnits) {
        m_unit->addItem(fromUtf8(symbolOf(unit)), static_cast<int>(unit));
    }
    m_unit->setCurrentIndex(QSettings().value(QStringLiteral("speed/unit"), 0).toInt());
    m_pain->addItem(tr("not asked"), -1);
    m_pain->addItem(tr("no"), 0);
    m_pain->addItem(tr("yes"), 1);
    m_condition->setAccessibleName(tr("Condition"));
    m_speed->setAccessibleName(tr("Belt speed"));
    m_speed->setPlaceholderText(tr("over ground"));
    m_unit->setAccessibleName(tr("Unit of speed"));
    m_shoes->setAccessibleName(tr("Shoes"));
    m_pain->setAccessibleName(tr("Pain"));
    m_speedTold->setWordWrap(true);
    setState(*m_speedTold, "bad");
    m_speedTold->hide();
    m_caution->setWordWrap(true);
    m_caution->setText(
        tr("Pain is a matter for a licensed clinician: no advice on form goes before "
           "their word."));
    setState(*m_caution, "doubt");
    m_caution->hide();

    auto* speed = new QHBoxLayout;
    speed->setSpacing(gridStep / 2);
    speed->addWidget(m_speed, 1);
    speed->addWidget(m_unit);
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, 0, 0, 0);
    form->setSpacing(gridStep);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->addRow(tr("Condition"), m_condition);
    form->addRow(tr("Minute"), m_minute);
    form->addRow(tr("Belt speed"), speed);
    form->addRow(m_speedTold);
    form->addRow(tr("Incline"), m_incline);
    form->addRow(tr("Shoes"), m_shoes);
    form->addRow(tr("Exertion"), m_exertion);
    form->addRow(tr("Pain"), m_pain);
    form->addRow(m_caution);
}

void ClipForm::connectFields()
{
    connect(m_condition, &QComboBox::activated, this, &ClipForm::takeDetails);
    connect(m_pain, &QComboBox::activated, this, &ClipForm::takeDetails);
    connect(m_shoes, &QLineEdit::editingFinished, this, &ClipForm::takeDetails);
    for (QDoubleSpinBox* field : {m_minute, m_incline, m_exertion}) {
        connect(field, &QDoubleSpinBox::valueChanged, this, &ClipForm::takeDetails);
    }
    connect(m_speed, &QLineEdit::editingFinished, this, &ClipForm::takeSpeed);
    connect(m_unit, &QComboBox::activated, this, [this](int row) {
        QSettings().setValue(QStringLiteral("speed/unit"), row);
        fill();
    });
}

void ClipForm::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    setEnabled(clip != nullptr);
    if (clip != nullptr) {
        connect(clip, &ClipDocument::detailsChanged, this, &ClipForm::fill);
        connect(clip, &ClipDocument::sceneChanged, this, &ClipForm::fill);
        connect(clip, &ClipDocument::opened, this, &ClipForm::fill);
    }
    fill();
}

void ClipForm::fill()
{
    if (!m_clip) {
        return;
    }
    m_filling = true;
    const ClipDetails details = m_clip->details();
    const Scene& scene = m_clip->scene();
    m_condition->setCurrentIndex(m_condition->findData(fromUtf8(details.condition)));
    put(*m_minute, details.minute);
    put(*m_incline, details.inclinePercent);
    put(*m_exertion, details.exertion);
    if (m_shoes->text() != fromUtf8(details.shoes)) {
        m_shoes->setText(fromUtf8(details.shoes));
    }
    m_pain->setCurrentIndex(details.pain ? (*details.pain ? 2 : 1) : 0);
    const auto unit = static_cast<SpeedUnit>(m_unit->currentData().toInt());
    m_speed->setText(scene.beltSpeed ? fromUtf8(speedText(*scene.beltSpeed, unit)) : QString());
    m_caution->setVisible(details.pain.value_or(false));
    m_filling = false;
    emit changed();
}

bool ClipForm::isComplete() const
{
    return m_clip && m_clip->details().exertion && m_clip->details().pain;
}

void ClipForm::takeDetails()
{
    if (m_filling || !m_clip) {
        return;
    }
    ClipDetails details;
    details.condition = m_condition->currentData().toString().toStdString();
    details.minute = valueOf(*m_minute);
    details.inclinePercent = valueOf(*m_incline);
    details.shoes = m_shoes->text().toStdString();
    details.exertion = valueOf(*m_exertion);
    const int pain = m_pain->currentData().toInt();
    details.pain = pain < 0 ? std::nullopt : std::optional(pain == 1);
    if (details != m_clip->details()) {
        m_clip->history().push(new SetDetails(*m_clip, details, tr("describe clip"), ++m_gesture));
    }
}

void ClipForm::takeSpeed()
{
    if (m_filling || !m_clip) {
        return;
    }
    Scene scene = m_clip->scene();
    const auto unit = static_cast<SpeedUnit>(m_unit->currentData().toInt());
    const std::string typed = m_speed->text().trimmed().toStdString();
    if (scene.beltSpeed && typed == speedText(*scene.beltSpeed, unit)) {
        return; // Nothing was typed: the rounded text must not become the speed.
    }
    std::optional<double> speed;
    QString fault;
    if (!typed.empty()) {
        if (const auto read = speedFrom(typed, unit)) {
            speed = *read;
        } else {
            fault = fromUtf8(read.error().sentence);
        }
    }
    m_speedTold->setText(fault);
    m_speedTold->setVisible(!fault.isEmpty());
    if (fault.isEmpty() && speed != scene.beltSpeed) {
        scene.beltSpeed = speed;
        m_clip->history().push(new SetScene(*m_clip, scene, tr("set belt speed"), ++m_gesture));
    }
}

} // namespace latemile::ui
