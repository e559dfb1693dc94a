// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/check_list.hpp"

#include "core/scene/plane.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QVBoxLayout>

namespace latemile::ui {
namespace {

QString signOf(QByteArrayView state)
{
    if (state == "good") {
        return QStringLiteral("✓  ");
    }
    return state == "bad" ? QStringLiteral("✗  ") : QStringLiteral("?  ");
}

} // namespace

CheckList::CheckList(QWidget* parent) : QWidget(parent), m_column(new QVBoxLayout(this))
{
    m_column->setContentsMargins(0, 0, 0, 0);
    m_column->setSpacing(gridStep / 2);
    setAccessibleName(tr("Check list"));
}

void CheckList::setClip(ClipDocument* clip)
{
    if (m_clip) {
        disconnect(m_clip, nullptr, this, nullptr);
    }
    m_clip = clip;
    if (clip != nullptr) {
        connect(clip, &ClipDocument::sceneChanged, this, &CheckList::tell);
        connect(clip, &ClipDocument::readingsChanged, this, &CheckList::tell);
        connect(clip, &ClipDocument::opened, this, &CheckList::tell);
    }
    tell();
}

void CheckList::add(const char* state, const QString& sentence)
{
    QLabel* label = plainLabel(signOf(state) + sentence, this);
    label->setWordWrap(true);
    setState(*label, state);
    m_column->addWidget(label);
}

void CheckList::tell()
{
    while (QLayoutItem* item = m_column->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    if (!m_clip) {
        return;
    }
    const Scene& scene = m_clip->scene();
    if (!scene.scale && !scene.plane) {
        add("doubt", tr("No scale line: draw one along something of known length at the runner. "
                        "Until then angles and times alone can be read."));
    }
    if (!scene.plumb) {
        add("doubt", tr("No plumb line: draw one along something that hangs or stands upright, "
                        "else a tilted camera tilts every angle."));
    }
    if (!scene.beltSpeed) {
        add("doubt", tr("No belt speed: step length and the belt check need it."));
    }
    const auto plane = Plane::from(scene);
    if (!plane) {
        add("bad", fromUtf8(plane.error().sentence));
    } else if (plane->hasScale() && m_clip->isOpen()) {
        const ClipFacts& facts = m_clip->feed().facts();
        const PixelPoint middle{facts.width / 2.0, facts.height / 2.0};
        add("good", tr("A pixel is %1 cm, the scale good to %2 %.")
                        .arg(numberText(plane->cmPerPixel(middle), 3),
                             numberText(100 * plane->relativeScaleError(), 1)));
    }
    if (m_clip->readings()) {
        for (const Check& check : m_clip->readings()->checks) {
            add(std::string(nameOf(check.state)).c_str(), fromUtf8(check.sentence));
        }
    }
}

} // namespace latemile::ui
