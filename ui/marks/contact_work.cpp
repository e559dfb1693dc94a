// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/marks/contact_work.hpp"

#include <utility>

namespace latemile::ui {
namespace {

/// Of the progress bar: reading the headers is over before the pictures are looked at.
constexpr double openingShare = 0.05;

Outcome<ContactFindings> findingsOf(const ContactJob& job, const std::function<bool(double)>& tell)
{
    ClipOptions options = job.options;
    options.goOn = [&](double share) { return tell(openingShare * share); };
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(job.file, options));
    return findContacts(clip, job.marking, job.scene, [&](double share) {
        return tell(openingShare + (1.0 - openingShare) * share);
    });
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
