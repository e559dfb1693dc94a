// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"
#include "core/store/go_on.hpp"

#include <filesystem>

namespace latemile {

/// The whole record of an athlete as one zip file: everything in the folder that holds athlete.json
/// (documents, earlier generations, clips, sheets, whatever else was put there), below one folder
/// of that name, and nothing of this machine: no owner, no rights, no time but that of the file.
/// A linked clip goes along as the film it stands for; locks and other links are left out. Clips
/// are stored as they are. The zip appears whole and for its owner alone (0600), or not at all.
/// Errors: a session is open somewhere, a linked film that is not there, a name that is not UTF-8,
/// a full disk.
Outcome<void> handOver(const std::filesystem::path& athleteFolder, const std::filesystem::path& zip,
                       const GoOn& goOn = {});

/// Brings such a record into a library, as the folder the zip holds; gives that folder. All is
/// unpacked beside the library's athletes first and checked as checkLibrary does; only a sound
/// record takes its place. Errors, and nothing taken in: an athlete of that folder is there
/// already, no zip of this kind, names that lead outside, links and devices, a size out of all
/// proportion, damage.
Outcome<std::filesystem::path> takeIn(const std::filesystem::path& zip,
                                      const std::filesystem::path& library, const GoOn& goOn = {});

} // namespace latemile
