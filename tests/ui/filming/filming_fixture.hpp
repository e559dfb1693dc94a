// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/ui/window/window_fixture.hpp"
#include "ui/filming/filming_page.hpp"

#include "core/quantities.hpp"

#include <QStringList>

class QAbstractButton;
class QComboBox;
class QDoubleSpinBox;
class QLineEdit;
class QSpinBox;

namespace latemile::ui {

/// The Filming page with settings as on the first day, and a coach who acts on it. Counts the
/// coach's acts: each press, each drag, each field typed, each choice.
class FilmingCoach {
public:
    FilmingCoach();

    /// The sample's first visit, with what it holds.
    FilmingPage& openFirstVisit();
    /// A later day of the same athlete with no clips yet.
    FilmingPage& openNewDay(const std::string& date = "2026-09-05");
    /// The sample's first visit with no clips, as if it were the athlete's first day.
    FilmingPage& openFirstDay();

    [[nodiscard]] FilmingPage& page() const { return *m_page; }
    [[nodiscard]] MainWindow& window() { return m_fixture.window(); }
    [[nodiscard]] ClipDocument& clip();
    [[nodiscard]] std::filesystem::path folder() const { return m_folder; }
    [[nodiscard]] int acts() const { return m_acts; }

    /// By drag and drop; waits until they are open.
    void drop(const QStringList& files, std::size_t clipsThen);
    void show(FilmingPage::Part part);
    void press(const QString& button);
    void type(const QString& field, double value);
    void typeText(const QString& field, const QString& text);
    void choose(const QString& field, const QString& entry);
    void drag(PixelPoint from, PixelPoint to);
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    void settle();

private:
    FilmingPage& open(const std::filesystem::path& folder);
    WindowFixture m_fixture;
    std::filesystem::path m_folder;
    FilmingPage* m_page{};
    int m_acts{};
};

/// A clip of the sample library.
[[nodiscard]] QString sampleClip(const char* date, const char* name);
[[nodiscard]] QAbstractButton& buttonNamed(const QWidget& page, const QString& text);
/// All texts of the labels in sight.
[[nodiscard]] QString textsOf(const QWidget& page);

} // namespace latemile::ui
