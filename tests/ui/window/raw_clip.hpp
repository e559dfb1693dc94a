// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/catch.hpp"
#include "tests/ui/window/marking_hands.hpp"
#include "tests/ui/window/unmarked_clip.hpp"
#include "ui/marks/follow_panel.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/marks/marks_words.hpp"
#include "ui/marks/proposing.hpp"

#include <string>

namespace latemile::ui {

/// A clip of the sample without a mark, cut and coded anew by an ffmpeg filter, on the marks page.
class RawClip : public UnmarkedClip {
public:
    RawClip(const QString& filter, int frames, int rate = 60)
        : UnmarkedClip([&](WindowFixture& fixture) {
              fixture.makeUnmarked();
              fixture.recode(filter, frames, rate);
          })
    {
        waitForPicture(page());
    }
    void waitForProposals()
    {
        for (int tries = 0; tries < 8 && page().proposing().isBusy(); ++tries) {
            (void)waitUntil([this] { return !page().proposing().isBusy(); });
        }
        REQUIRE_FALSE(page().proposing().isBusy());
    }
    [[nodiscard]] std::string hint()
    {
        return hintText(page().flow(), window().keys()).toStdString();
    }
    [[nodiscard]] std::string told() { return page().followPanel().told().toStdString(); }
};

} // namespace latemile::ui
