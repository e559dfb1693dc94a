// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/worker_pictures.hpp"

#include <algorithm>

#include <sys/eventfd.h>
#include <unistd.h>

namespace latemile {

WorkerPictures::WorkerPictures(const ClipFile& file, const ClipOptions& options,
                               const WorkerTerms& terms)
    : m_file(file), m_options(options), m_terms(terms), m_stop(::eventfd(0, EFD_CLOEXEC))
{
    m_options.goOn = nullptr;
}

Outcome<OpeningAnswer> WorkerPictures::begin(const ClipOptions& options)
{
    ASSIGN_OR_RETURN(auto opened, WorkerSession::open(m_file, options, m_terms, m_stop.number()));
    m_session.emplace(std::move(opened.session));
    return std::move(opened.answer);
}

/// The new worker has to see the clip that the old one saw.
Outcome<void> WorkerPictures::beginAgain()
{
    ASSIGN_OR_RETURN(const auto answer, begin(m_options));
    const bool isSame = answer.index.times() == m_times && answer.groupStarts == m_starts &&
                        answer.shape.width() == m_shape.width() &&
                        answer.shape.height() == m_shape.height();
    if (!isSame) {
        m_session.reset();
        return fail(Error::Kind::Damaged,
                    "The file " + m_file.name() + " changed while it was open; open it again.");
    }
    return {};
}

/// What is decoded after the frame that ends every worker would end every worker too.
bool WorkerPictures::isBeyondBreakdown(std::int64_t rank) const
{
    return std::any_of(m_breakdowns.begin(), m_breakdowns.end(), [&](std::int64_t broken) {
        return broken <= rank && groupStart(rank) <= broken;
    });
}

Outcome<SharedAvFrame> WorkerPictures::picture(std::int64_t rank, const Passing& passing)
{
    const auto brokenDown = [&] {
        return fail(Error::Kind::Damaged,
                    "Frame " + std::to_string(rank) + " of " + m_file.name() +
                        " breaks its decoder down and cannot be shown; use frames of another "
                        "step.");
    };
    if (isBeyondBreakdown(rank)) {
        return brokenDown();
    }
    constexpr int attempts = 3; // the first may find a worker that died long ago
    for (int attempt = 0; attempt < attempts; ++attempt) {
        if (!m_session) {
            RETURN_IF_ERROR(beginAgain());
        }
        auto found = m_session->picture(rank, count(), passing, m_taker);
        const auto ending = m_session->ending();
        if (ending) {
            m_session.reset();
        }
        if (ending != Ending::Gone) {
            return found;
        }
    }
    m_breakdowns.push_back(rank);
    return brokenDown();
}

std::int64_t WorkerPictures::groupStart(std::int64_t rank) const
{
    return m_starts[static_cast<std::size_t>(rank)];
}

void WorkerPictures::giveUp()
{
    constexpr std::uint64_t once = 1;
    static_cast<void>(!::write(m_stop.number(), &once, sizeof once));
}

Outcome<OpenClip> openInWorker(const ClipFile& file, const ClipOptions& options,
                               const WorkerTerms& terms)
{
    std::unique_ptr<WorkerPictures> pictures(new WorkerPictures(file, options, terms));
    ASSIGN_OR_RETURN(auto answer, pictures->begin(options));
    pictures->m_starts = std::move(answer.groupStarts);
    pictures->m_shape = answer.shape;
    pictures->m_times = answer.index.times();
    return OpenClip{.pictures = std::move(pictures),
                    .shape = answer.shape,
                    .index = std::move(answer.index),
                    .facts = std::move(answer.facts)};
}

} // namespace latemile
