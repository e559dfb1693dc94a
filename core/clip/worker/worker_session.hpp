// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_file.hpp"
#include "core/clip/decoded_pictures.hpp"
#include "core/clip/worker/channel.hpp"
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/opening_message.hpp"
#include "core/clip/worker/room.hpp"
#include "core/clip/worker/sent_picture.hpp"
#include "core/clip/worker/worker_process.hpp"
#include "core/outcome.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>

namespace latemile {

/// The program's side of the talk with one worker about one clip. Whatever the worker says is
/// checked; one that says what cannot be true is listened to no more. Not thread-safe.
class WorkerSession {
public:
    struct Opened;
    /// Starts a worker and lets it open the clip. `stop`: a descriptor that ends any waiting when
    /// it can be read. Errors: the worker's own, or that it ended, did not answer, or lied.
    [[nodiscard]] static Outcome<Opened> open(const ClipFile& file, const ClipOptions& options,
                                              const WorkerTerms& terms, int stop);

    /// As DecodedPictures::picture. `count`: of the clip's frames.
    [[nodiscard]] Outcome<SharedAvFrame> picture(std::int64_t rank, std::int64_t count,
                                                 const Passing& passing, PictureTaker& taker);
    /// Why it can be asked no more, if so.
    [[nodiscard]] std::optional<Ending> ending() const { return m_ending; }

private:
    WorkerSession(Channel channel, WorkerProcess process, const WorkerTerms& terms,
                  std::string name, int stop);
    [[nodiscard]] Outcome<OpeningAnswer> opening(const ClipFile& file, const ClipOptions& options);
    [[nodiscard]] Outcome<Message> receive(Channel::Clock::time_point start,
                                           const ClipOptions* options = nullptr);
    [[nodiscard]] tl::unexpected<Error> ended(Ending ending);
    void send(Say say, const Packing& body = {}, int descriptor = -1);
    [[nodiscard]] bool makeRoom(const Message& message);
    [[nodiscard]] SharedAvFrame taken(Unpacking& from, PictureTaker& taker) const;

    WorkerProcess m_process; // goes after the channel, whose end it would see
    Channel m_channel;
    WorkerTerms m_terms;
    std::string m_name; ///< of the file, in quotes
    int m_stop;
    std::optional<Ending> m_ending;
    std::optional<Room> m_room;
};

struct WorkerSession::Opened {
    WorkerSession session;
    OpeningAnswer answer;
};

} // namespace latemile
