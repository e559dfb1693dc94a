// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"

namespace latemile::ui {

class MarksPage;

/// The acts of the marks page on contacts and toe-offs, on the frame shown.
class EventActions {
public:
    static void contact(MarksPage& page, Foot foot);
    static void toeOff(MarksPage& page, Foot foot);
    /// Sets the event that comes after the last one and goes to where the next is expected.
    static void eventDue(MarksPage& page);
    static void goToDue(MarksPage& page);
    static void removeStep(MarksPage& page);
    /// The next place, round the clip, where a bone or the rhythm does not fit.
    static void nextFault(MarksPage& page);

private:
    static bool setContact(MarksPage& page, Foot foot);
    static bool setToeOff(MarksPage& page, Foot foot);
};

} // namespace latemile::ui
