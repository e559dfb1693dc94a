// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <archive.h>
#include <archive_entry.h>

#include <memory>

namespace latemile {

/// libarchive's things, freed with their owner.
struct FreeArchiveWriter {
    void operator()(archive* a) const { archive_write_free(a); }
};
struct FreeArchiveReader {
    void operator()(archive* a) const { archive_read_free(a); }
};
struct FreeArchiveEntry {
    void operator()(archive_entry* entry) const { archive_entry_free(entry); }
};
using ArchiveWriter = std::unique_ptr<archive, FreeArchiveWriter>;
using ArchiveReader = std::unique_ptr<archive, FreeArchiveReader>;
using ArchiveEntry = std::unique_ptr<archive_entry, FreeArchiveEntry>;

} // namespace latemile
