// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/sheet_maker.hpp"

#include "ui/document/session_document.hpp"
#include "ui/document/shown_clip.hpp"
#include "ui/page/resource_file.hpp"
#include "ui/text/words.hpp"

#include <memory>
#include <utility>

namespace latemile::ui {
namespace {

struct Made {
    Outcome<SheetContent> content;
    Outcome<StillPictures> pictures;
};

} // namespace

SheetMaker::SheetMaker(SessionDocument& session, QObject* parent)
    : QObject(parent), m_session(session)
{
    if (auto cues = readCues(resourceFile("cues.json"))) {
        m_cues = std::move(*cues);
    } else {
        m_fault = fromUtf8(cues.error().sentence);
    }
    m_pause.setSingleShot(true);
    m_pause.setInterval(120);
    connect(&m_pause, &QTimer::timeout, this, &SheetMaker::make);
    connect(&session, &SessionDocument::aboutChanged, this, &SheetMaker::makeSoon);
    connect(&session, &SessionDocument::athleteChanged, this, &SheetMaker::makeSoon);
    connect(&session, &SessionDocument::clipsChanged, this, &SheetMaker::follow);
    follow();
}

SheetMaker::~SheetMaker() = default;

void SheetMaker::setNameHidden(bool hidden)
{
    m_nameHidden = hidden;
    makeSoon();
}

void SheetMaker::follow()
{
    for (ClipDocument* clip : m_session.clips()) {
        connect(clip, &ClipDocument::readingsChanged, this, &SheetMaker::makeSoon,
                Qt::UniqueConnection);
    }
    makeSoon();
}

void SheetMaker::make()
{
    const ClipDocument* fresh = m_session.clipOf("fresh");
    const ClipDocument* fatigued = m_session.clipOf("fatigued");
    const bool both = fresh != nullptr && fatigued != nullptr;
    const auto waits = [](const ClipDocument& clip) {
        return clip.fault().isEmpty() && (!clip.isOpen() || clip.isReading());
    };
    if (both && (waits(*fresh) || waits(*fatigued))) {
        return; // Their readings bring us back here.
    }
    if (!both || !fresh->readings() || !fatigued->readings()) {
        m_content.reset();
        m_fault = both ? tr("The sheet is made once both clips are marked.")
                       : tr("A sheet needs one fresh and one fatigued clip.");
        emit made();
        return;
    }
    SheetChoice choice;
    choice.hideName = m_nameHidden;
    const int order = ++m_order;
    m_worker.post([this, order, choice, a = shownClip(*fresh), b = shownClip(*fatigued),
                   session = m_session.session(), athlete = m_session.athlete(), cues = m_cues] {
        auto result = std::make_shared<Made>();
        result->content = sheetContent(a, b, session, athlete, cues, choice);
        if (result->content) {
            result->pictures = loadStills(*result->content);
        }
        QMetaObject::invokeMethod(
            this,
            [this, result, order] {
                if (order != m_order) {
                    return;
                }
                m_fault.clear();
                m_content.reset();
                if (!result->content) {
                    m_fault = fromUtf8(result->content.error().sentence);
                } else if (!result->pictures) {
                    m_fault = fromUtf8(result->pictures.error().sentence);
                } else {
                    m_content = std::move(*result->content);
                    m_pictures = std::move(*result->pictures);
                }
                emit made();
            },
            Qt::QueuedConnection);
    });
}

} // namespace latemile::ui
