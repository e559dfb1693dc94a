// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile::ui {

class Keys;
class Selection;
class SessionDocument;

/// What a page of a session is given; all of it outlives the page.
struct PageContext {
    SessionDocument& session;
    Selection& selection;
    Keys& keys;
};

} // namespace latemile::ui
