// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/worker_process.hpp"

#include "core/clip/worker/sandbox.hpp"

#include <array>
#include <cerrno>
#include <condition_variable>
#include <csignal>
#include <cstdlib>
#include <deque>
#include <future>
#include <mutex>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace latemile {

namespace {

/// Starts processes from one thread that lasts as long as this program. A worker asks to die with
/// its parent, and Linux takes for the parent the thread that started it: clips are opened on
/// threads that come and go, and their workers would go with them.
class Starter {
public:
    Starter() : m_thread([this](const std::stop_token& stop) { run(stop); }) {}

    pid_t start(std::packaged_task<pid_t()> task)
    {
        auto started = task.get_future();
        {
            const std::lock_guard lock(m_mutex);
            m_tasks.push_back(std::move(task));
        }
        m_changed.notify_one();
        return started.get();
    }

private:
    void run(const std::stop_token& stop)
    {
        std::unique_lock lock(m_mutex);
        while (m_changed.wait(lock, stop, [this] { return !m_tasks.empty(); })) {
            auto task = std::move(m_tasks.front());
            m_tasks.pop_front();
            lock.unlock();
            task();
            lock.lock();
        }
    }

    std::mutex m_mutex;
    std::condition_variable_any m_changed;
    std::deque<std::packaged_task<pid_t()>> m_tasks; // guarded by m_mutex
    std::jthread m_thread;                           // last: starts when the rest is built
};

Starter& starter()
{
    static Starter ofThisProgram;
    return ofThisProgram;
}

/// What a worker needs of our surroundings, and no more: where libraries lie. Libraries of ours
/// that are of no use to it are told to start no threads.
std::vector<std::string> surroundings()
{
    std::vector<std::string> variables{"OPENBLAS_NUM_THREADS=1", "OMP_NUM_THREADS=1"};
    for (const char* name : {"LD_LIBRARY_PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS"}) {
        if (const char* value = std::getenv(name)) {
            variables.push_back(std::string(name) + "=" + value);
        }
    }
    return variables;
}

std::vector<char*> pointersTo(std::vector<std::string>& texts)
{
    std::vector<char*> pointers;
    for (auto& text : texts) {
        pointers.push_back(text.data());
    }
    pointers.push_back(nullptr);
    return pointers;
}

/// Its own group, so that a key pressed in the terminal reaches the program alone, which then ends
/// its workers itself; signals as a new process has them.
class Attributes {
public:
    Attributes()
    {
        sigset_t none;
        sigset_t all;
        ::sigemptyset(&none);
        ::sigfillset(&all);
        ::posix_spawnattr_init(&m_attributes);
        ::posix_spawnattr_setsigmask(&m_attributes, &none);
        ::posix_spawnattr_setsigdefault(&m_attributes, &all);
        ::posix_spawnattr_setpgroup(&m_attributes, 0);
        ::posix_spawnattr_setflags(&m_attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF |
                                                      POSIX_SPAWN_SETPGROUP);
    }
    Attributes(const Attributes&) = delete;
    Attributes& operator=(const Attributes&) = delete;
    ~Attributes() { ::posix_spawnattr_destroy(&m_attributes); }
    [[nodiscard]] const posix_spawnattr_t* get() const { return &m_attributes; }

private:
    posix_spawnattr_t m_attributes{};
};

/// A library that dies of a hostile file must not talk in the coach's terminal.
class Files {
public:
    explicit Files(const Descriptor& socket)
    {
        ::posix_spawn_file_actions_init(&m_files);
        ::posix_spawn_file_actions_addopen(&m_files, STDIN_FILENO, "/dev/null", O_RDWR, 0);
        ::posix_spawn_file_actions_adddup2(&m_files, STDIN_FILENO, STDOUT_FILENO);
        ::posix_spawn_file_actions_adddup2(&m_files, STDIN_FILENO, STDERR_FILENO);
        ::posix_spawn_file_actions_adddup2(&m_files, socket.number(), workerSocket);
    }
    Files(const Files&) = delete;
    Files& operator=(const Files&) = delete;
    ~Files() { ::posix_spawn_file_actions_destroy(&m_files); }
    [[nodiscard]] const posix_spawn_file_actions_t* get() const { return &m_files; }

private:
    posix_spawn_file_actions_t m_files{};
};

pid_t spawned(const std::string& program, const Descriptor& socket, FieldsTaken fields)
{
    std::vector<std::string> words{"latemile-decoder", workerArgument, std::to_string(::getpid())};
    if (fields == FieldsTaken::Yes) {
        words.emplace_back(withFieldsArgument);
    }
    auto variables = surroundings();
    const Attributes attributes;
    const Files files(socket);
    pid_t id = 0;
    const int code = ::posix_spawn(&id, program.c_str(), files.get(), attributes.get(),
                                   pointersTo(words).data(), pointersTo(variables).data());
    return code == 0 ? id : 0;
}

} // namespace

std::optional<WorkerProcess> WorkerProcess::start(const std::string& program,
                                                  const Descriptor& socket, FieldsTaken fields)
{
    const auto id = starter().start(
        std::packaged_task<pid_t()>([&] { return spawned(program, socket, fields); }));
    return id > 0 ? std::optional(WorkerProcess(id)) : std::nullopt;
}

WorkerProcess::~WorkerProcess()
{
    if (m_id <= 0) {
        return;
    }
    // The number is ours until it was waited for.
    ::kill(m_id, SIGKILL);
    while (::waitpid(m_id, nullptr, 0) < 0 && errno == EINTR) {
    }
}

} // namespace latemile
