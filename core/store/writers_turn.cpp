// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/writers_turn.hpp"

#include <fcntl.h>

#include <cerrno>
#include <chrono>
#include <thread>

namespace latemile {

Outcome<WritersTurn> WritersTurn::take(const std::filesystem::path& folder, FileSystem& files)
{
    using namespace std::chrono_literals;
    auto opened = openFile(files, folder, O_RDONLY | O_DIRECTORY);
    if (!opened) {
        return WritersTurn(std::nullopt); // what is wrong with the folder is told by the write
    }
    const auto end = std::chrono::steady_clock::now() + 3s;
    while (true) {
        const auto locked = files.lock(opened->descriptor());
        if (locked) {
            return WritersTurn(std::move(*opened));
        }
        if (locked.error() != EWOULDBLOCK && locked.error() != EINTR) {
            return WritersTurn(std::nullopt);
        }
        if (std::chrono::steady_clock::now() > end) {
            return fail(Error::Kind::Unsupported,
                        "Another window is writing into " + folder.string() +
                            " and does not end: try again, or close that window.");
        }
        std::this_thread::sleep_for(2ms);
    }
}

} // namespace latemile
