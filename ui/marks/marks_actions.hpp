// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile::ui {

class Keys;
class MarksPage;

/// The acts of the marks page that have keys.
class MarksActions {
public:
    MarksActions(MarksPage& page, Keys& keys);

    static void nextCell(MarksPage& page, int way);
    static void accept(MarksPage& page);
    static void acceptStep(MarksPage& page);
    static void cellDone(MarksPage& page);

private:
    static void addPictureKeys(MarksPage& page, Keys& keys);
    static void addMarkKeys(MarksPage& page, Keys& keys);
    static void moveStep(MarksPage& page, int way);
    static void moveInstant(MarksPage& page, int way);
    static void loopStep(MarksPage& page);
};

} // namespace latemile::ui
