// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/practice/clip_truth.hpp"
#include "ui/document/session_document.hpp"

#include <QString>
#include <QTemporaryDir>

#include <memory>
#include <vector>

namespace latemile::ui {

/// A clip that can be practised on: one of the sample athlete's that has its truth beside it.
struct PracticeClip {
    std::filesystem::path session;
    std::string file; ///< below it
    QString name;     ///< "29 August 2026, fresh"
};
[[nodiscard]] std::vector<PracticeClip> practiceClips(const std::filesystem::path& athleteFolder);

/// A copy of one such clip without any mark, in a folder that goes away with it: nothing of the
/// practice enters a library.
class PracticeCopy {
public:
    static Outcome<std::unique_ptr<PracticeCopy>> make(const PracticeClip& clip);

    [[nodiscard]] SessionDocument& session() const { return *m_session; }
    [[nodiscard]] const ClipTruth& truth() const { return m_truth; }

private:
    PracticeCopy() = default;
    QTemporaryDir m_folder;
    ClipTruth m_truth;
    std::unique_ptr<SessionDocument> m_session; ///< goes before its folder
};

} // namespace latemile::ui
