// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/edit_record.hpp"

#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"

#include <QUndoCommand>
#include <QUndoStack>

#include <algorithm>

using namespace latemile;
using namespace latemile::ui;

namespace {

/// A session whose note is edited again and again, as a document does it.
struct NotedSession {
    QUndoStack history;
    Session session{tests::dayWithMarks(2)};
    EditRecord record{history, session};

    void note(const std::string& text)
    {
        session.note = text;
        history.push(new QUndoCommand(QStringLiteral("note")));
        record.note(session);
    }
    [[nodiscard]] std::size_t kept() const
    {
        const auto all = record.edits().edits;
        return static_cast<std::size_t>(
            std::ranges::count_if(all, [](const PastEdit& edit) { return bytesIn(edit) > 0; }));
    }
};

} // namespace

TEST_CASE("a record of edits is no longer in memory than on disk", "[ui][document]")
{
    NotedSession noted;
    constexpr std::size_t more = 40;
    for (std::size_t i = 0; i < mostKeptEdits + more; ++i) {
        noted.note(std::to_string(i));
    }
    CHECK(noted.kept() == mostKeptEdits);
    const auto all = noted.record.edits();
    CHECK(all.done == mostKeptEdits);
    const auto back = withEdit(noted.session, all.edits.back().back);
    REQUIRE(back);
    CHECK(back->note == std::to_string(mostKeptEdits + more - 2));
}

TEST_CASE("large edits are forgotten sooner, but never the last", "[ui][document]")
{
    NotedSession noted;
    for (int i = 0; i < 12; ++i) {
        noted.note(std::string(std::size_t{1} << 20, static_cast<char>('a' + i)));
    }
    // Each holds the note before and after it.
    CHECK(noted.kept() == 3);
    noted.note(std::string(mostKeptBytes, 'z'));
    CHECK(noted.kept() == 1);
}

TEST_CASE("below what is forgotten nothing is kept that builds on it", "[ui][document]")
{
    NotedSession noted;
    for (int i = 0; i < 12; ++i) {
        noted.note(std::string(std::size_t{1} << 20, static_cast<char>('a' + i)));
    }
    const auto before = noted.record.edits();
    REQUIRE(before.edits.size() == 3);
    const auto undo = [&noted](int times) {
        for (int i = 0; i < times; ++i) {
            noted.history.undo();
        }
        noted.session.note = "as it was";
        noted.record.note(noted.session);
    };
    undo(3);
    CHECK(noted.record.edits().done == 0);
    CHECK(noted.record.edits().edits == before.edits);
    undo(2);
    CHECK(noted.record.edits().edits.empty());
    // What goes on by itself now belongs to an edit that is forgotten.
    noted.session.note = "moved by itself";
    noted.record.note(noted.session);
    CHECK(noted.record.edits().edits.empty());
    for (int i = 0; i < 5; ++i) {
        noted.history.redo();
    }
    noted.record.note(noted.session);
    CHECK(noted.record.edits().edits == before.edits);
}
