// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "ui/theme/tokens.hpp"

using namespace latemile::ui;

TEST_CASE("contrast is that of WCAG 2.1", "[ui][outside]")
{
    // WCAG 2.1, definition of contrast ratio: black on white is 21:1; #767676 on white is the
    // well-known grey that just passes 4.5:1 (4.54).
    CHECK(contrastOf(Qt::black, Qt::white) == Approx(21.0));
    CHECK(contrastOf(QColor(0x76, 0x76, 0x76), Qt::white) == Approx(4.54).margin(0.01));
}

TEST_CASE("every text of both themes stands at 4.5 to 1 or more", "[ui]")
{
    for (const Tokens& tokens : {lightTokens(), darkTokens()}) {
        for (const QColor& ground : {tokens.paper, tokens.card}) {
            for (const QColor& text :
                 {tokens.text, tokens.quiet, tokens.freshText, tokens.fatiguedText, tokens.good,
                  tokens.doubt, tokens.bad}) {
                CAPTURE(text.name().toStdString(), ground.name().toStdString());
                CHECK(contrastOf(text, ground) >= 4.5);
            }
            for (const QColor& shape :
                 {tokens.fresh, tokens.fatigued, tokens.proposal, tokens.frame}) {
                CAPTURE(shape.name().toStdString(), ground.name().toStdString());
                CHECK(contrastOf(shape, ground) >= 3.0);
            }
        }
        CHECK(contrastOf(tokens.text, tokens.chosen) >= 4.5);
    }
}
