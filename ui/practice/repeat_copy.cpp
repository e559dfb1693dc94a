// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/repeat_copy.hpp"

namespace latemile::ui {

Outcome<std::unique_ptr<RepeatCopy>> RepeatCopy::make(const SessionDocument& session,
                                                      const ClipDocument& clip, std::size_t most,
                                                      std::uint64_t seed)
{
    std::unique_ptr<RepeatCopy> copy(new RepeatCopy);
    copy->m_plan = repeatPlan(clip.marking(), clip.index(), most, seed);
    if (copy->m_plan.empty()) {
        return fail(Error::Kind::Inconsistent,
                    "There is nothing to mark again yet: mark and confirm a few steps of this "
                    "clip first.");
    }
    Session blank = session.session();
    blank.clips = {clip.clip()};
    blank.clips.front().marking = blankFor(clip.marking());
    const auto folder =
        std::filesystem::path(copy->m_folder.path().toStdString()) / "repeat" / blank.date;
    const auto file = folder / clip.clip().file;
    std::error_code fault;
    std::filesystem::create_directories(file.parent_path(), fault);
    std::filesystem::create_symlink(std::filesystem::absolute(clip.file()), file, fault);
    if (fault) {
        return fail(Error::Kind::DiskFull,
                    "The repeat could not be set up in the folder for temporary files: is the "
                    "disk full?",
                    fault.message());
    }
    RETURN_IF_ERROR(writeSession(blank, folder));
    ASSIGN_OR_RETURN(copy->m_session, SessionDocument::open(folder));
    return copy;
}

} // namespace latemile::ui
