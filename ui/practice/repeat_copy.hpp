// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/practice/repeat_plan.hpp"
#include "ui/document/session_document.hpp"

#include <QTemporaryDir>

#include <memory>
#include <vector>

namespace latemile::ui {

/// A clip of the session at hand with its contacts and without its marks, in a folder that goes
/// away with it, and which of its instants are to be marked again: the first marks cannot be seen,
/// and the second ones enter no library.
class RepeatCopy {
public:
    /// `clip` is open. Up to `most` instants; a clip without a placed one is an Error.
    static Outcome<std::unique_ptr<RepeatCopy>> make(const SessionDocument& session,
                                                     const ClipDocument& clip, std::size_t most,
                                                     std::uint64_t seed);

    [[nodiscard]] SessionDocument& session() const { return *m_session; }
    [[nodiscard]] const std::vector<RepeatCell>& plan() const { return m_plan; }

private:
    RepeatCopy() = default;
    QTemporaryDir m_folder;
    std::vector<RepeatCell> m_plan;
    std::unique_ptr<SessionDocument> m_session; ///< goes before its folder
};

} // namespace latemile::ui
