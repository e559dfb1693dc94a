// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QKeyEvent;

namespace latemile::ui {

class FilmingPage;
class Keys;

/// The keys of the Filming page.
class FilmingActions {
public:
    FilmingActions(FilmingPage& page, Keys& keys);
    /// Arrow keys move the chosen end of a line by a pixel, with Shift by a tenth, with Ctrl by
    /// ten; false where none is chosen.
    static bool nudge(FilmingPage& page, const QKeyEvent& event);

private:
    static void addPictureKeys(FilmingPage& page, Keys& keys);
    static void addSceneKeys(FilmingPage& page, Keys& keys);
};

} // namespace latemile::ui
