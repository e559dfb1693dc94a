// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/clip_part.hpp"

#include "core/filming/capture_rate_question.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_capture_rate.hpp"
#include "ui/filming/camera_memory.hpp"
#include "ui/filming/clip_words.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QFormLayout>
#include <QPushButton>
#include <QUndoStack>
#include <QVBoxLayout>

#include <cmath>

namespace latemile::ui {
namespace {

constexpr double rates[]{30.0, 60.0, 100.0, 120.0, 200.0, 240.0, 480.0, 960.0};

} // namespace

ClipPart::ClipPart(QWidget* parent)
    : QWidget(parent), m_facts(plainLabel({}, this)), m_remarks(plainLabel({}, this)),
      m_question(new QWidget(this)), m_asked(plainLabel({}, m_question)),
      m_answers(new QHBoxLayout), m_rate(new QComboBox(this)), m_remembered(quietLabel({}, this))
{
    build();
    connect(m_rate, &QComboBox::activated, this, &ClipPart::takeRate);
    tell();
}

void ClipPart::build()
{
    for (QLabel* label : {m_facts, m_remarks, m_asked, m_remembered}) {
        label->setWordWrap(true);
    }
    setState(*m_remarks, "doubt");
    setState(*m_asked, "doubt");
    m_rate->addItem(tr("as the file says"), 0.0);
    for (const double rate : rates) {
        m_rate->addItem(tr("%1 frames/s").arg(rate), rate);
    }
    m_rate->setAccessibleName(tr("Filmed at"));
    m_answers->setSpacing(gridStep / 2);
    auto* question = new QVBoxLayout(m_question);
    question->setContentsMargins(0, 0, 0, 0);
    question->setSpacing(gridStep);
    question->addWidget(m_asked);
    question->addLayout(m_answers);
    auto* form = new QFormLayout;
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->addRow(tr("Filmed at"), m_rate);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * gridStep);
    column->addWidget(m_question);
    column->addWidget(m_facts);
    column->addLayout(form);
    column->addWidget(m_remembered);
    column->addWidget(m_remarks);
    column->addStretch();
}

void ClipPart::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    if (clip != nullptr) {
        connect(clip, &ClipDocument::opened, this, &ClipPart::tell);
        connect(clip, &ClipDocument::sceneChanged, this, &ClipPart::tell);
    }
    tell();
}

bool ClipPart::hasQuestion() const
{
    return m_clip && m_clip->isOpen() && mayBeSlowMotion(m_clip->feed().facts()) &&
           rememberedSlowMotion(cameraSignature(m_clip->feed().facts())) != 1.0;
}

void ClipPart::tell()
{
    const bool open = m_clip && m_clip->isOpen();
    m_rate->setEnabled(open);
    m_remembered->setVisible(open && m_fromMemory.contains(m_clip));
    if (!open) {
        m_facts->clear();
        m_remarks->hide();
        m_question->hide();
        emit changed();
        return;
    }
    const ClipFacts& facts = m_clip->feed().facts();
    m_facts->setText(factsText(fromUtf8(m_clip->clip().file), facts));
    QStringList remarks;
    for (const std::string& remark : facts.remarks) {
        remarks.append(fromUtf8(remark));
    }
    m_remarks->setText(remarks.join(u'\n'));
    m_remarks->setVisible(!remarks.isEmpty());
    m_remembered->setText(tr("%1 frames/s, as you answered for this camera before. Choose another "
                             "rate where this clip differs.")
                              .arg(numberText(facts.captureRate, 0)));
    const double stated = m_clip->scene().captureRate.value_or(0.0);
    int row = m_rate->findData(stated);
    if (row < 0) {
        m_rate->addItem(tr("%1 frames/s").arg(numberText(stated, 2)), stated);
        row = m_rate->count() - 1;
    }
    m_rate->setCurrentIndex(row);
    tellQuestion();
    emit changed();
}

void ClipPart::tellQuestion()
{
    m_question->setVisible(hasQuestion());
    while (QLayoutItem* item = m_answers->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    if (!hasQuestion()) {
        return;
    }
    const double plays = m_clip->feed().facts().containerRate;
    m_asked->setText(tr("The file plays %1 frames a second. Slow motion is stored just so: at how "
                        "many frames a second was it filmed?")
                         .arg(numberText(plays, 0)));
    const auto add = [&](const QString& name, double rate) {
        auto* button = new QPushButton(name, m_question);
        connect(button, &QPushButton::clicked, this, [this, rate] { answer(rate); });
        m_answers->addWidget(button);
    };
    add(tr("%1: real time").arg(numberText(plays, 0)), plays);
    for (const double rate : {120.0, 240.0}) {
        add(numberText(rate, 0), rate);
    }
    m_answers->addStretch();
}

void ClipPart::takeRate()
{
    const double rate = m_rate->currentData().toDouble();
    if (!m_clip || !m_clip->isOpen()) {
        return;
    }
    if (rate > 0) {
        answer(rate);
    } else if (m_clip->scene().captureRate) {
        m_clip->history().push(new SetCaptureRate(*m_clip, std::nullopt));
    }
}

void ClipPart::answer(double rate)
{
    const ClipFacts& facts = m_clip->feed().facts();
    m_fromMemory.remove(m_clip);
    rememberSlowMotion(cameraSignature(facts), rate / facts.containerRate);
    if (m_clip->scene().captureRate != rate) {
        m_clip->history().push(new SetCaptureRate(*m_clip, rate));
    }
}

void ClipPart::answerFromMemory(ClipDocument& clip)
{
    const ClipFacts& facts = clip.feed().facts();
    const auto factor = rememberedSlowMotion(cameraSignature(facts));
    if (!factor || !mayBeSlowMotion(facts) || clip.scene().captureRate) {
        return;
    }
    m_fromMemory.insert(&clip);
    // Rates are stated in whole frames; 240 / 29.97 times 29.98 is 240 still.
    clip.history().push(new SetCaptureRate(clip, std::round(*factor * facts.containerRate)));
}

} // namespace latemile::ui
