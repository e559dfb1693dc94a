// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/worker_main.hpp"

#include "core/clip/decoder_words.hpp"
#include "core/clip/field_filter.hpp"
#include "core/clip/worker/clip_service.hpp"
#include "core/clip/worker/sandbox.hpp"
#include "core/clip/worker/worker_process.hpp"

#include <csignal>
#include <cstdlib>
#include <exception>
#include <string>
#include <string_view>

#include <malloc.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace latemile {

namespace {

enum Exit { served = 0, wrongStart = 2, noSandbox = 3, unforeseen = 4 };

bool isSocket(int descriptor)
{
    int type = 0;
    socklen_t size = sizeof type;
    return ::getsockopt(descriptor, SOL_SOCKET, SO_TYPE, &type, &size) == 0 &&
           type == SOCK_SEQPACKET;
}

/// Dies with the program, also where that is killed. It may have gone before we asked.
bool diesWith(const char* parent)
{
    return ::prctl(PR_SET_PDEATHSIG, SIGKILL) == 0 && std::to_string(::getppid()) == parent;
}

Exit serve(const char* parent, FieldsTaken fields)
{
    if (!isSocket(workerSocket) || !diesWith(parent)) {
        return wrongStart;
    }
    ::syscall(SYS_close_range, workerSocket + 1, ~0U, 0); // what a library forgot to mark
    // Each further heap would ask how many processors there are, in a file, and reserve 64 MiB.
    ::mallopt(M_ARENA_MAX, 2);
    listenToDecoders();
    if (fields == FieldsTaken::Yes) {
        static_cast<void>(fieldFilter()); // a fault is told when a clip has fields
    }
    ClipService service(Channel{Descriptor(workerSocket), Channel::End::Worker});
    if (const auto missing = enterSandbox()) {
        service.refuse("The decoder of clips cannot be confined on this system; to decode without "
                       "that protection start Latemile with --in-process.",
                       *missing);
        return noSandbox;
    }
    try {
        service.run();
    } catch (const std::exception&) {
        return unforeseen; // no memory, as a rule; the program sees us go
    }
    return served;
}

} // namespace

void serveIfWorker(int argc, const char* const* argv)
{
    const bool withFields = argc == 4 && std::string_view(argv[3]) == withFieldsArgument;
    if ((argc == 3 || withFields) && std::string_view(argv[1]) == workerArgument) {
        // Nothing of the program was begun, and nothing of it is to be ended.
        ::_exit(serve(argv[2], withFields ? FieldsTaken::Yes : FieldsTaken::No));
    }
}

} // namespace latemile
