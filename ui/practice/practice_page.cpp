// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/practice_page.hpp"

#include "ui/keys/keys.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/page/labels.hpp"
#include "ui/page/reach.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/practice/miss_words.hpp"
#include "ui/practice/truth_overlay.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QPushButton>
#include <QUndoStack>
#include <QVBoxLayout>

namespace latemile::ui {

PracticePage::PracticePage(std::filesystem::path athleteFolder, Keys& keys, QWidget* parent)
    : QWidget(parent), m_keys(keys), m_clips(practiceClips(athleteFolder)),
      m_column(new QVBoxLayout(this))
{
    m_column->setContentsMargins(0, gridStep, 0, gridStep);
    m_column->setSpacing(gridStep);
    m_column->addWidget(buildHead());
    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(2 * gridStep, 0, 2 * gridStep, gridStep);
    foot->addWidget(buildFoot());
    m_column->addLayout(foot);
    for (const PracticeClip& clip : m_clips) {
        m_choice->addItem(clip.name);
    }
    connect(m_choice, &QComboBox::currentIndexChanged, this, &PracticePage::startAgain);
    startAgain();
}

PracticePage::~PracticePage()
{
    drop();
}

QWidget* PracticePage::buildHead()
{
    auto* head = new QWidget(this);
    m_choice = new QComboBox(head);
    m_choice->setAccessibleName(tr("Clip to practise on"));
    m_show = new QCheckBox(tr("Show the truth as crosses"), head);
    auto* undo = new QPushButton(tr("Undo"), head);
    auto* again = new QPushButton(tr("Start again"), head);
    auto* leave = new QPushButton(tr("End practice"), head);
    connect(m_show, &QCheckBox::toggled, this, &PracticePage::setTruthShown);
    connect(undo, &QPushButton::clicked, this, [this] {
        if (history() != nullptr) {
            history()->undo();
        }
    });
    connect(again, &QPushButton::clicked, this, &PracticePage::startAgain);
    connect(leave, &QPushButton::clicked, this, &PracticePage::left);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    row->setSpacing(gridStep);
    row->addWidget(titleLabel(tr("Practice"), head));
    row->addWidget(m_choice);
    row->addWidget(m_show);
    row->addStretch();
    row->addWidget(undo);
    row->addWidget(again);
    row->addWidget(leave);
    return head;
}

QWidget* PracticePage::buildFoot()
{
    auto* foot = new QFrame(this);
    foot->setProperty("rank", "card");
    m_told = quietLabel(tr("How far from the truth. Nothing of this enters your library."), foot);
    m_marksTold = plainLabel({}, foot);
    m_eventsTold = plainLabel({}, foot);
    auto* column = new QVBoxLayout(foot);
    column->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, gridStep);
    column->setSpacing(gridStep / 2);
    for (QLabel* label : {m_told, m_marksTold, m_eventsTold}) {
        label->setWordWrap(true);
        column->addWidget(label);
    }
    return foot;
}

void PracticePage::drop()
{
    delete m_marks;
    m_selection.setClip(nullptr);
    m_copy.reset();
}

void PracticePage::startAgain()
{
    drop();
    const int at = m_choice->currentIndex();
    if (at < 0) {
        m_told->setText(tr("The sample athlete's clips are not installed: there is nothing to "
                           "practise on."));
        setState(*m_told, "bad");
        return;
    }
    auto copy = PracticeCopy::make(m_clips[static_cast<std::size_t>(at)]);
    if (!copy) {
        m_told->setText(fromUtf8(copy.error().sentence));
        setState(*m_told, "bad");
        return;
    }
    m_copy = std::move(*copy);
    ClipDocument& clip = *m_copy->session().clips().front();
    m_selection.setClip(&clip);
    m_marks = new MarksPage({m_copy->session(), m_selection, m_keys}, this);
    m_marks->setFocusPolicy(Qt::ClickFocus);
    makeReachable(*m_marks, tr("Marks for practice"));
    m_column->insertWidget(1, m_marks, 1);
    m_overlay = new TruthOverlay(m_marks->view(), m_marks->player(), m_copy->truth());
    setTruthShown(m_show->isChecked());
    connect(&clip, &ClipDocument::markChanged, this, &PracticePage::tell);
    connect(&clip, &ClipDocument::stancesChanged, this, &PracticePage::tell);
    connect(&m_marks->player(), &Player::frameChanged, this, &PracticePage::tell);
    tell();
    m_marks->setFocus();
}

QUndoStack* PracticePage::history() const
{
    return m_copy ? &m_copy->session().history() : nullptr;
}

MarksPage* PracticePage::marks() const
{
    return m_marks;
}

SessionDocument* PracticePage::session() const
{
    return m_copy ? &m_copy->session() : nullptr;
}

void PracticePage::setTruthShown(bool shown)
{
    m_show->setChecked(shown);
    if (m_overlay) {
        m_overlay->setVisible(shown);
    }
}

void PracticePage::tell()
{
    if (m_selection.clip() == nullptr || !m_marks) {
        return;
    }
    const Marking& marking = m_selection.clip()->marking();
    const FrameNumber frame = m_marks->player().frame();
    m_marksTold->setText(
        tr("This frame:  %1").arg(marksText(missesOf(marking, frame, m_copy->truth()))));
    m_eventsTold->setText(
        tr("Events:  %1").arg(eventsText(missesOf(marking.stances, m_copy->truth()))));
}

QString PracticePage::marksTold() const
{
    return m_marksTold->text();
}

QString PracticePage::eventsTold() const
{
    return m_eventsTold->text();
}

} // namespace latemile::ui
