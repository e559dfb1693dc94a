// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sheet/clinician_words.hpp"

#include <algorithm>

namespace latemile {
namespace {

constexpr const char* advice = " Please see a licensed clinician before you work on your running "
                               "form; the cues can wait.";

} // namespace

std::string clinicianWords(const Session& session)
{
    if (session.screening && !session.screening->flags.empty()) {
        return "Asked before filming, you said yes to: " + flagWords(*session.screening) + "." +
               advice;
    }
    const bool pain =
        std::any_of(session.clips.begin(), session.clips.end(),
                    [](const SessionClip& clip) { return clip.pain.value_or(false); });
    return pain ? std::string("Pain was noted at this session.") + advice : std::string();
}

} // namespace latemile
