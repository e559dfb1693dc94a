// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/last_visit_ghost.hpp"

#include "core/clip/clip_reader.hpp"
#include "core/filming/next_visit.hpp"
#include "ui/picture/picture_image.hpp"
#include "ui/text/words.hpp"

#include <memory>

namespace latemile::ui {
namespace {

struct Found {
    QImage picture;
    std::string date;
};

Outcome<Found> lastVisitOf(const std::filesystem::path& folder, const SessionClip& clip)
{
    const auto before = visitBefore(folder);
    if (!before) {
        return fail(Error::Kind::NotFound, "There is no filming day before this one.");
    }
    const SessionClip* same = sameOf(before->session, clip);
    if (same == nullptr) {
        return fail(Error::Kind::NotFound, "On " + before->session.date + " no " + clip.condition +
                                               " clip was filmed from this side.");
    }
    ASSIGN_OR_RETURN(auto reader, ClipReader::open(before->folder / same->file));
    ASSIGN_OR_RETURN(const auto frame, reader.frame({0}));
    return Found{imageOf(frame.picture), before->session.date};
}

} // namespace

void LastVisitGhost::ask(const std::filesystem::path& sessionFolder, const SessionClip& clip)
{
    const int number = ++m_number;
    // Marks and contacts stay behind: the search needs condition and view alone.
    SessionClip wanted;
    wanted.condition = clip.condition;
    wanted.scene.view = clip.scene.view;
    m_worker.post([this, sessionFolder, wanted, number] {
        auto result = std::make_shared<Outcome<Found>>(lastVisitOf(sessionFolder, wanted));
        QMetaObject::invokeMethod(
            this,
            [this, result, number] {
                if (number != m_number) {
                    return;
                }
                if (*result) {
                    m_picture = (*result)->picture;
                    m_date = fromUtf8((*result)->date);
                    emit found();
                } else {
                    m_picture = QImage();
                    emit missing(fromUtf8(result->error().sentence));
                }
            },
            Qt::QueuedConnection);
    });
}

void LastVisitGhost::forget()
{
    ++m_number;
    m_picture = QImage();
}

} // namespace latemile::ui
