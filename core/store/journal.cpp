// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/journal.hpp"

#include "core/files/checksum.hpp"
#include "core/json_file.hpp"
#include "core/whole_file.hpp"

#include <fcntl.h>

#include <charconv>
#include <cstdio>
#include <utility>

namespace latemile {

namespace {

constexpr int journalVersion = 1;
constexpr std::size_t crcFigures = 8;

struct Record {
    std::int64_t number{};
    nlohmann::json value;
};

std::string crcText(std::string_view text)
{
    std::string figures(crcFigures + 1, '\0');
    std::snprintf(figures.data(), figures.size(), "%08x", crc32Of(text));
    figures.resize(crcFigures);
    return figures;
}

std::string lineOf(std::int64_t number, const nlohmann::json& value)
{
    // Bad UTF-8 in a person's text must not end the program here.
    const auto text = std::to_string(number) + " " +
                      value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return crcText(text) + " " + text + "\n";
}

/// Nothing unless the line is whole.
std::optional<Record> recordFrom(std::string_view line)
{
    if (line.size() < crcFigures + 2 || line[crcFigures] != ' ') {
        return std::nullopt;
    }
    const auto text = line.substr(crcFigures + 1);
    if (line.substr(0, crcFigures) != crcText(text)) {
        return std::nullopt;
    }
    Record record;
    const auto [end, fault] =
        std::from_chars(text.data(), text.data() + text.size(), record.number);
    if (fault != std::errc() || end == text.data() + text.size()) {
        return std::nullopt;
    }
    auto value = parseJson(text.substr(static_cast<std::size_t>(end - text.data())), "the journal");
    if (!value) {
        return std::nullopt;
    }
    record.value = std::move(*value);
    return record;
}

std::optional<std::string> baseIn(const nlohmann::json& first)
{
    const JsonField field(first, "the journal");
    const auto base = field.text("base");
    return needVersion(field, journalVersion) && base ? std::optional(*base) : std::nullopt;
}

} // namespace

JournalContent journalFrom(std::string_view bytes)
{
    JournalContent content;
    std::int64_t next = 0;
    bool broken = false;
    while (!bytes.empty()) {
        const auto end = bytes.find('\n');
        auto record =
            end == std::string_view::npos ? std::nullopt : recordFrom(bytes.substr(0, end));
        bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + 1);
        const auto base = record && next == 0 ? baseIn(record->value) : std::nullopt;
        if (!record || broken || record->number != next || (next == 0 && !base)) {
            content.unusable += record ? 1 : 0;
            broken = true;
        } else if (next++ == 0) {
            content.base = *base;
        } else {
            content.records.push_back(std::move(record->value));
        }
    }
    content.tornTail = broken && content.unusable == 0;
    return content;
}

Journal::Journal(std::filesystem::path file, FileSystem& files)
    : m_file(std::move(file)), m_files(&files)
{
}

Called<void> Journal::write(std::string_view lines)
{
    if (!m_open) {
        // Whatever an earlier program left there was looked at when the session was opened.
        auto opened = openFile(*m_files, m_file, O_WRONLY | O_CREAT | O_APPEND | O_TRUNC, 0600);
        if (!opened) {
            return tl::unexpected(opened.error());
        }
        if (const auto named = syncFolder(*m_files, folderOf(m_file)); !named) {
            return named;
        }
        m_open = std::move(*opened);
    }
    if (m_ragged) {
        if (const auto cut = m_files->truncate(m_open->descriptor(), m_whole); !cut) {
            return cut;
        }
    }
    m_ragged = true;
    const auto written = writeAll(*m_files, m_open->descriptor(), lines).and_then([this] {
        return m_files->syncData(m_open->descriptor());
    });
    if (written) {
        m_ragged = false;
        m_whole += static_cast<std::int64_t>(lines.size());
    }
    return written;
}

Outcome<void> Journal::append(const nlohmann::json& record, std::string_view base)
{
    std::string lines;
    auto number = m_number;
    if (m_whole == 0) {
        number = 0;
        lines = lineOf(number++, {{"version", journalVersion}, {"base", base}});
    }
    lines += lineOf(number++, record);
    if (const auto written = write(lines); !written) {
        return writeFault(m_file, written.error());
    }
    m_number = number;
    return {};
}

Outcome<void> Journal::empty()
{
    if (!m_open) {
        return {};
    }
    // Not synced: a journal that comes back after a power cut says by itself that it is done with.
    if (const auto cut = m_files->truncate(m_open->descriptor(), 0); !cut) {
        return writeFault(m_file, cut.error());
    }
    m_whole = 0;
    m_ragged = false;
    return {};
}

void Journal::leave()
{
    if (m_open && m_open->descriptor() >= 0 && m_whole == 0 && !m_ragged) {
        (void)m_files->remove(m_file);
    }
    m_open.reset();
}

} // namespace latemile
