// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/caution_line.hpp"

#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <algorithm>

namespace latemile::ui {

CautionLine::CautionLine(QWidget* parent) : QLabel(parent)
{
    setTextFormat(Qt::PlainText);
    setWordWrap(true);
    setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    setState(*this, "bad");
    hide();
}

void CautionLine::setSession(SessionDocument* session)
{
    m_session = session;
    if (m_session) {
        connect(m_session, &SessionDocument::aboutChanged, this, &CautionLine::tell);
        connect(m_session, &SessionDocument::clipsChanged, this, &CautionLine::follow);
        follow();
    }
    tell();
}

void CautionLine::follow()
{
    for (ClipDocument* clip : m_session->clips()) {
        connect(clip, &ClipDocument::detailsChanged, this, &CautionLine::tell,
                Qt::UniqueConnection);
    }
    tell();
}

void CautionLine::tell()
{
    QString words;
    if (m_session) {
        const auto& screening = m_session->about().screening;
        const auto clips = m_session->clips();
        if (screening && !screening->flags.empty()) {
            words = fromUtf8(flagWords(*screening));
        } else if (std::ranges::any_of(clips, [](const ClipDocument* clip) {
                       return clip->clip().pain.value_or(false);
                   })) {
            words = tr("pain");
        }
    }
    setVisible(!words.isEmpty());
    setText(words.isEmpty() ? QString()
                            : tr("! Noted: %1. A licensed clinician first; the sheet says so in "
                                 "place of the cues.")
                                  .arg(words));
}

} // namespace latemile::ui
