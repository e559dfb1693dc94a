// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/files/model_disk.hpp"

#include <fcntl.h>

#include <algorithm>
#include <cerrno>

namespace latemile::tests {

void ModelDisk::put(const Path& file, std::string_view bytes)
{
    const int number = m_nextFile++;
    for (Tree* tree : {&m_start, &m_now}) {
        tree->names[file] = number;
        tree->bytes[number] = bytes;
    }
}

std::string ModelDisk::bytesOf(const Path& file) const
{
    const auto found = m_now.names.find(file);
    return found == m_now.names.end() ? std::string() : m_now.bytes.at(found->second);
}

std::vector<ModelDisk::Path> ModelDisk::names() const
{
    std::vector<Path> names;
    for (const auto& [name, file] : m_now.names) {
        names.push_back(name);
    }
    return names;
}

void ModelDisk::changeNames(std::function<void(Tree&)> change)
{
    change(m_now);
    m_log.push_back({.names = std::move(change), .file = -1, .bytes = {}, .sync = false});
}

void ModelDisk::changeBytes(int file, std::function<void(std::string&)> change)
{
    change(m_now.bytes[file]);
    m_log.push_back({.names = {}, .file = file, .bytes = std::move(change), .sync = false});
}

void ModelDisk::afterPowerCut(std::size_t changes, const std::function<void(ModelDisk)>& look) const
{
    Tree safe = m_start; // names synced, bytes synced
    auto written = m_start.bytes;
    std::vector<std::function<void(Tree&)>> names; // changed since the folder was synced
    for (std::size_t i = 0; i < changes; ++i) {
        const Change& change = m_log[i];
        if (change.names) {
            names.push_back(change.names);
        } else if (change.bytes) {
            change.bytes(written[change.file]);
        } else if (change.sync && change.file >= 0) {
            safe.bytes[change.file] = written[change.file];
        } else if (change.sync) {
            for (const auto& name : names) {
                name(safe);
            }
            names.clear();
        }
    }
    for (std::size_t some = 0; some <= names.size(); ++some) {
        for (const int bytes : {0, 1, 2}) { // none of what was not synced, half of it, all of it
            Tree left = safe;
            for (std::size_t i = 0; i < some; ++i) {
                names[i](left);
            }
            for (const auto& [file, all] : written) {
                auto& there = left.bytes[file];
                if (bytes == 2) {
                    there = all;
                } else if (bytes == 1 && all.starts_with(there)) {
                    there = all.substr(0, there.size() + (all.size() - there.size()) / 2);
                }
            }
            look(ModelDisk(std::move(left)));
        }
    }
}

Called<int> ModelDisk::open(const Path& file, int flags, mode_t)
{
    Opened opened;
    if ((flags & O_DIRECTORY) != 0) {
        opened.folder = file;
    } else {
        auto found = m_now.names.find(file);
        if (found != m_now.names.end() && (flags & O_EXCL) != 0) {
            return tl::unexpected(EEXIST);
        }
        if (found == m_now.names.end()) {
            if ((flags & O_CREAT) == 0) {
                return tl::unexpected(ENOENT);
            }
            const int number = m_nextFile++;
            changeNames([file, number](Tree& tree) { tree.names[file] = number; });
            m_now.bytes[number];
            found = m_now.names.find(file);
        }
        opened.file = found->second;
        opened.append = (flags & O_APPEND) != 0;
    }
    m_open[m_nextDescriptor] = opened;
    return m_nextDescriptor++;
}

Called<std::size_t> ModelDisk::read(int descriptor, char* to, std::size_t most)
{
    Opened& opened = m_open.at(descriptor);
    const std::string& bytes = m_now.bytes[opened.file];
    const auto count = std::min(most, bytes.size() - std::min(bytes.size(), opened.at));
    std::copy_n(bytes.data() + opened.at, count, to);
    opened.at += count;
    return count;
}

Called<std::size_t> ModelDisk::write(int descriptor, std::string_view bytes)
{
    Opened& opened = m_open.at(descriptor);
    const auto at = opened.append ? m_now.bytes[opened.file].size() : opened.at;
    changeBytes(opened.file, [at, text = std::string(bytes)](std::string& file) {
        file.resize(std::max(file.size(), at + text.size()));
        file.replace(at, text.size(), text);
    });
    opened.at = at + bytes.size();
    return bytes.size();
}

Called<void> ModelDisk::truncate(int descriptor, std::int64_t size)
{
    changeBytes(m_open.at(descriptor).file,
                [size](std::string& file) { file.resize(static_cast<std::size_t>(size)); });
    return {};
}

Called<void> ModelDisk::sync(int descriptor)
{
    m_log.push_back({.names = {}, .file = m_open.at(descriptor).file, .bytes = {}, .sync = true});
    return {};
}

Called<void> ModelDisk::lock(int descriptor)
{
    const int file = m_open.at(descriptor).file;
    if (m_locked.contains(file)) {
        return tl::unexpected(EWOULDBLOCK);
    }
    m_locked.insert(file);
    m_lockOf[descriptor] = file;
    return {};
}

Called<void> ModelDisk::close(int descriptor)
{
    if (const auto lock = m_lockOf.find(descriptor); lock != m_lockOf.end()) {
        m_locked.erase(lock->second);
        m_lockOf.erase(lock);
    }
    m_open.erase(descriptor);
    return {};
}

Called<FileFacts> ModelDisk::facts(int descriptor)
{
    const int file = m_open.at(descriptor).file;
    return FileFacts{.kind = FileFacts::Kind::Plain,
                     .size = static_cast<std::int64_t>(m_now.bytes[file].size()),
                     .rights = 0600,
                     .inode = static_cast<std::uint64_t>(file)};
}

Called<FileFacts> ModelDisk::facts(const Path& file)
{
    const auto found = m_now.names.find(file);
    if (found == m_now.names.end()) {
        return tl::unexpected(ENOENT);
    }
    return FileFacts{.kind = FileFacts::Kind::Plain,
                     .size = static_cast<std::int64_t>(m_now.bytes[found->second].size()),
                     .rights = 0600,
                     .inode = static_cast<std::uint64_t>(found->second)};
}

Called<void> ModelDisk::link(const Path& from, const Path& to)
{
    if (!has(from) || has(to)) {
        return tl::unexpected(has(from) ? EEXIST : ENOENT);
    }
    changeNames([from, to](Tree& tree) { tree.names[to] = tree.names[from]; });
    return {};
}

Called<void> ModelDisk::rename(const Path& from, const Path& to)
{
    if (!has(from)) {
        return tl::unexpected(ENOENT);
    }
    // As rename(2): two names of one file both stay.
    if (!has(to) || m_now.names[from] != m_now.names[to]) {
        changeNames([from, to](Tree& tree) {
            tree.names[to] = tree.names[from];
            tree.names.erase(from);
        });
    }
    return {};
}

Called<void> ModelDisk::remove(const Path& file)
{
    if (!has(file)) {
        return tl::unexpected(ENOENT);
    }
    changeNames([file](Tree& tree) { tree.names.erase(file); });
    return {};
}

Called<std::vector<ModelDisk::Path>> ModelDisk::list(const Path& folder)
{
    std::vector<Path> found;
    for (const auto& [name, file] : m_now.names) {
        if (name.parent_path() == folder) {
            found.push_back(name);
        }
    }
    return found;
}

} // namespace latemile::tests
