// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/click_errors.hpp"
#include "core/propose/clip_search.hpp"
#include "core/propose/leg_turns.hpp"
#include "core/propose/proposals.hpp"
#include "ui/document/long_work.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace latemile::ui {

/// What is proposed: a copy of everything it takes, so that the coach can go on working.
struct ProposeJob {
    ClipSearch search;            ///< without frames: nothing more is looked at
    std::vector<FoundBody> known; ///< from looks before
    View view{};
    int width{}; ///< of the upright picture
    int height{};
    LegTurns turns;
    std::map<MarkKey, Mark> marks; ///< the coach's, to learn from
    ClickErrors clicks;
    bool follows{}; ///< the coach's marks, which takes seconds and makes the proposals surer
};

struct ProposeResult {
    SearchedClip searched; ///< `found` holds those known before too
    Proposals proposals;   ///< of the landmarks that are of use: see isOfUse
    std::vector<std::string> remarks;
    std::size_t frames{}; ///< on which the runner was found
    bool isStopped{};
    /// Why what was seen makes no proposals; it is worth keeping all the same. NotFound: nobody is
    /// on the frames looked at.
    std::optional<Error> fault;
};

/// All nine landmarks of the near side; of the far one the leg below the hip, for contacts and for
/// the exchange of legs.
[[nodiscard]] bool isOfUse(const MarkKey& key);

/// Looks at a clip's frames and makes proposals of what it sees, away from the window's thread.
class ProposeWork final : public LongWork {
    Q_OBJECT
public:
    explicit ProposeWork(QObject* parent = nullptr) : LongWork(parent) {}

    /// `proposed` or `failed` comes after it.
    void propose(ProposeJob job);
    /// The looks end soon; `proposed` comes with what was found until then.
    void endEarly();
    [[nodiscard]] bool isEndedEarly() const { return m_enough && *m_enough; }

signals:
    void proposed(const std::shared_ptr<const latemile::ui::ProposeResult>& result);

private:
    std::shared_ptr<std::atomic<bool>> m_enough; ///< of the piece at hand; read on its thread
};

} // namespace latemile::ui
