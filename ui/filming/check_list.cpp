// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/check_list.hpp"

#include "ui/document/clip_document.hpp"
#include "ui/document/commands/set_capture_rate.hpp"
#include "ui/document/commands/set_scene.hpp"
#include "ui/filming/film_work.hpp"
#include "ui/filming/remark_list.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QUndoStack>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {

CheckList::CheckList(QWidget* parent)
    : QWidget(parent), m_film(new FilmCheck(this)), m_list(new RemarkList(tr("Check list"), this)),
      m_help(plainLabel({}, this))
{
    m_help->setWordWrap(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * gridStep);
    column->addWidget(m_help);
    column->addWidget(m_list);
    column->addStretch();
    connect(m_list, &RemarkList::offerTaken, this, &CheckList::takeRemedy);
    connect(m_film, &FilmCheck::checked, this, [this](bool isOriginal) {
        m_isOriginal = isOriginal;
        tell();
    });
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
        connect(clip, &ClipDocument::opened, this, &CheckList::checkFilm);
    }
    checkFilm();
    tell();
}

/// A file that cannot be read is told where its picture would be.
void CheckList::checkFilm()
{
    m_isOriginal = true;
    m_film->stop();
    if (m_clip && m_clip->isOpen()) {
        m_film->check(m_clip->file());
    }
}

const std::vector<Remark>& CheckList::remarks() const
{
    return m_list->remarks();
}

Check::State CheckList::worst() const
{
    const auto worse = std::ranges::max_element(m_list->remarks(), {}, &Remark::state);
    return worse == m_list->remarks().end() ? Check::State::Good : worse->state;
}

void CheckList::tell()
{
    if (!m_clip || !m_clip->isOpen()) {
        m_remedy.reset();
        m_list->setRemarks({});
        m_help->hide();
        emit changed();
        return;
    }
    const FilmedClip filmed{.facts = m_clip->feed().facts(),
                            .scene = m_clip->scene(),
                            .readings = m_clip->readings(),
                            .isOriginal = m_isOriginal};
    m_remedy = beltRemedy(filmed);
    std::optional<RemarkList::Offer> offer;
    if (m_remedy) {
        offer = {.about = m_remedy->about, .words = fromUtf8(m_remedy->words)};
    }
    m_list->setRemarks(trustIn(filmed), offer);
    const auto help = mostHelpful(filmed);
    m_help->setVisible(help.has_value());
    m_help->setText(help ? tr("What would help most: %1.").arg(fromUtf8(*help)) : QString());
    emit changed();
}

void CheckList::takeRemedy()
{
    if (!m_clip || !m_clip->isOpen() || !m_remedy) {
        return;
    }
    const Scene scene = m_remedy->scene;
    m_remedy.reset(); // it answers the readings of now; the next ones bring their own
    if (scene.captureRate != m_clip->scene().captureRate) {
        m_clip->history().push(new SetCaptureRate(*m_clip, scene.captureRate));
        return;
    }
    const bool isSpeed = scene.beltSpeed != m_clip->scene().beltSpeed;
    const bool isBelt = scene.scaleByBelt != m_clip->scene().scaleByBelt;
    const QString name = isSpeed  ? tr("correct belt speed")
                         : isBelt ? tr("take scale from belt")
                                  : tr("correct scale by belt");
    m_clip->history().push(new SetScene(*m_clip, scene, name, ++m_gesture));
}

} // namespace latemile::ui
