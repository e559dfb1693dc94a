// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/clip_switch.hpp"

#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QToolButton>

namespace latemile::ui {

QString clipName(const ClipDocument& clip)
{
    return clipName(clip.clip());
}

QString clipName(const SessionClip& clip)
{
    QString name = capital(wordForCondition(clip.condition));
    if (clip.minute) {
        name += ClipSwitch::tr(", minute %1").arg(numberText(*clip.minute, 0));
    }
    if (!isSideView(clip.scene.view)) {
        name += QStringLiteral(", ") + wordFor(clip.scene.view);
    }
    return name;
}

ClipSwitch::ClipSwitch(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_row(new QHBoxLayout(this))
{
    m_row->setContentsMargins(0, 0, 0, 0);
    m_row->setSpacing(gridStep / 2);
    setAccessibleName(tr("Clip"));
    connect(&m_context.session, &SessionDocument::clipsChanged, this, &ClipSwitch::rebuild);
    connect(&m_context.selection, &Selection::clipChanged, this, &ClipSwitch::tellChosen);
    rebuild();
}

void ClipSwitch::rebuild()
{
    while (QLayoutItem* item = m_row->takeAt(0)) {
        if (QWidget* widget = item->widget()) {
            widget->hide();
            widget->deleteLater();
        }
        delete item;
    }
    delete m_group;
    m_group = new QButtonGroup(this);
    for (ClipDocument* clip : m_context.session.clips()) {
        auto* button = new QToolButton(this);
        button->setCheckable(true);
        button->setText(clipName(*clip));
        button->setToolTip(fromUtf8(clip->clip().file));
        button->setProperty("clip", QVariant::fromValue<QObject*>(clip));
        m_group->addButton(button);
        m_row->addWidget(button);
        connect(button, &QToolButton::clicked, this,
                [this, clip] { m_context.selection.setClip(clip); });
        connect(clip, &ClipDocument::detailsChanged, button,
                [button, clip] { button->setText(clipName(*clip)); });
        connect(clip, &ClipDocument::sceneChanged, button,
                [button, clip] { button->setText(clipName(*clip)); });
    }
    m_row->addStretch();
    tellChosen();
}

void ClipSwitch::tellChosen()
{
    for (QAbstractButton* button : m_group->buttons()) {
        button->setChecked(button->property("clip").value<QObject*>() ==
                           m_context.selection.clip());
    }
}

} // namespace latemile::ui
