// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

class QWidget;

namespace latemile::ui {

class SessionDocument;

/// Opens the questions before filming. The answer is an edit of the session that can be undone, and
/// is saved at once; then `answered` is called. A session that was closed meanwhile takes none.
void askBeforeFilming(SessionDocument& session, QWidget* parent, std::function<void()> answered);

} // namespace latemile::ui
