// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"

namespace latemile::batch {

/// A session with the athlete it belongs to.
struct OpenedSession {
    Session session;
    Athlete athlete;
};

/// `folder` holds session.json and lies in the folder that holds athlete.json.
Outcome<OpenedSession> openSessionFolder(const std::filesystem::path& folder);

/// What the measures need of an athlete.
[[nodiscard]] AthleteFacts factsOf(const Athlete& athlete);

} // namespace latemile::batch
