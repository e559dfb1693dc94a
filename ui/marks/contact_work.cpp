// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/contact_work.hpp"

#include "ui/marks/work_clip.hpp"

#include <utility>

namespace latemile::ui {
namespace {

Outcome<ContactFindings> findingsOf(const ContactJob& job, const WorkGoesOn& goesOn)
{
    ASSIGN_OR_RETURN(auto clip, openForWork(job.file, job.options, goesOn));
    return findContacts(clip, job.marking, job.scene, afterOpening(goesOn));
}

} // namespace

void ContactWork::find(ContactJob job)
{
    start<ContactFindings>(
        [job = std::move(job)](const Tell& tell) { return findingsOf(job, tell); },
        [this](ContactFindings findings) {
            emit found(std::make_shared<const ContactFindings>(std::move(findings)));
        });
}

} // namespace latemile::ui
