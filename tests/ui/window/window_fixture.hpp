// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/window/main_window.hpp"

#include <QStringList>
#include <QTemporaryDir>

#include <filesystem>
#include <functional>

namespace latemile::ui {

class MarksPage;

/// A copy of the sample athlete's first visit in a folder that goes away, and a window on it.
class WindowFixture {
public:
    WindowFixture();

    [[nodiscard]] std::filesystem::path sessionFolder() const;
    MainWindow& openWindow(const QString& page);
    void closeWindow() { m_window.reset(); }
    [[nodiscard]] MainWindow& window() { return *m_window; }
    /// Only one clip, the first unless another is asked for, and nothing marked, as a coach begins.
    void makeUnmarked(std::size_t clip = 0);
    /// The first clip cut to its first frames, coded anew.
    void shorten(int frames);
    /// The clip fresh.mp4 coded anew through a filter of ffmpeg's, at so many frames a second.
    void recode(const QString& filter, int frames, int rate);
    /// The sample athlete's two re-films beside the first visit.
    void addLaterVisits();

private:
    void codeAnew(const QStringList& options, int frames);
    QTemporaryDir m_folder;
    std::unique_ptr<MainWindow> m_window;
};

/// The ids of all pages, in the order of the rail.
[[nodiscard]] QStringList allPages();

/// Lets events come in until `held` is true, at most 30 seconds; returns whether it became true.
[[nodiscard]] bool waitUntil(const std::function<bool()>& held);

/// Lets the picture come in that was asked for last: what a coach waits for before the next click.
void waitForPicture(const MarksPage& page);

/// Presses a key where the focus of the page is.
void press(QWidget& where, Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);

} // namespace latemile::ui
