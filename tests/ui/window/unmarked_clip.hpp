// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/ui/window/window_fixture.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/window/main_window.hpp"

#include <QTableView>

#include <algorithm>
#include <functional>

namespace latemile::ui {

/// The marks page on a clip of the sample that nobody has marked, prepared before it is opened.
class UnmarkedClip {
public:
    explicit UnmarkedClip(const std::function<void(WindowFixture&)>& prepare)
    {
        prepare(m_fixture);
        open();
    }
    /// As on another day.
    void reopen()
    {
        m_fixture.closeWindow();
        open();
    }
    [[nodiscard]] MainWindow& window() { return *m_window; }
    [[nodiscard]] MarksPage& page() { return *m_page; }
    [[nodiscard]] ClipDocument& clip() { return *m_window->session()->clips().front(); }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        press(m_page->view(), key, modifiers);
    }
    [[nodiscard]] std::ptrdiff_t count(Origin origin)
    {
        return std::ranges::count_if(clip().marking().marks, [origin](const auto& entry) {
            return entry.second.origin == origin;
        });
    }
    /// Of the step table, as a screen reader tells it.
    [[nodiscard]] QString cell(int row, int column)
    {
        const auto* table = m_page->findChild<QTableView*>();
        return table->model()->index(row, column).data(Qt::AccessibleTextRole).toString();
    }

private:
    void open()
    {
        m_window = &m_fixture.openWindow(QStringLiteral("marks"));
        m_page = dynamic_cast<MarksPage*>(m_window->page());
    }

    WindowFixture m_fixture;
    MainWindow* m_window{};
    MarksPage* m_page{};
};

} // namespace latemile::ui
