// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/filming/filming_fixture.hpp"

#include "tests/catch.hpp"
#include "tests/project_folders.hpp"
#include "ui/filming/last_visit_ghost.hpp"
#include "ui/filming/scene_loan.hpp"
#include "ui/filming/work_side.hpp"
#include "ui/picture/frame_view.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QTest>
#include <QToolButton>
#include <QUrl>

#include <algorithm>

namespace latemile::ui {
namespace {

template <class Widget>
Widget& named(const QWidget& page, const QString& name)
{
    for (Widget* widget : page.findChildren<Widget*>()) {
        if (widget->accessibleName() == name && widget->isVisible()) {
            return *widget;
        }
    }
    FAIL("nothing named " << name.toStdString());
    throw 0;
}

QPoint onScreen(const FrameView& view, PixelPoint at)
{
    return (view.map().toDevice(at) / view.devicePixelRatioF()).toPoint();
}

} // namespace

QString sampleClip(const char* date, const char* name)
{
    return QString::fromStdString(tests::sourceFolder().string() +
                                  "/sample_clips/ilse-varga/%1/clips/%2")
        .arg(QLatin1String(date), QLatin1String(name));
}

QAbstractButton& buttonNamed(const QWidget& page, const QString& text)
{
    for (QAbstractButton* button : page.findChildren<QAbstractButton*>()) {
        if (button->text() == text || button->accessibleName() == text) {
            return *button;
        }
    }
    FAIL("no button " << text.toStdString());
    throw 0;
}

QString textsOf(const QWidget& page)
{
    QCoreApplication::processEvents(); // labels just made come into sight
    QString text;
    for (const QLabel* label : page.findChildren<QLabel*>()) {
        if (label->isVisible()) {
            text += QString(label->text()).remove(QChar(0x200b)) + u'\n';
        }
    }
    return text;
}

FilmingCoach::FilmingCoach()
{
    QSettings().clear();
}

FilmingPage& FilmingCoach::open(const std::filesystem::path& folder)
{
    m_folder = folder;
    MainWindow& window = m_fixture.openWindow(QStringLiteral("filming"));
    if (folder != m_fixture.sessionFolder()) {
        REQUIRE(window.open(folder));
        window.showPage(QStringLiteral("filming"));
    }
    m_page = dynamic_cast<FilmingPage*>(window.page());
    REQUIRE(m_page != nullptr);
    settle();
    m_acts = 0;
    return *m_page;
}

FilmingPage& FilmingCoach::openFirstVisit()
{
    return open(m_fixture.sessionFolder());
}

FilmingPage& FilmingCoach::openNewDay(const std::string& date)
{
    const auto folder = m_fixture.sessionFolder().parent_path() / date;
    std::filesystem::create_directories(folder);
    Session session;
    session.date = date;
    REQUIRE(writeSession(session, folder));
    return open(folder);
}

FilmingPage& FilmingCoach::openFirstDay()
{
    auto session = readSession(m_fixture.sessionFolder());
    REQUIRE(session);
    session->clips.clear();
    REQUIRE(writeSession(*session, m_fixture.sessionFolder()));
    return open(m_fixture.sessionFolder());
}

ClipDocument& FilmingCoach::clip()
{
    REQUIRE(window().selection().clip() != nullptr);
    return *window().selection().clip();
}

void FilmingCoach::settle()
{
    REQUIRE(waitUntil([this] {
        const auto clips = window().session()->clips();
        return !m_page->loan().isBusy() && std::ranges::all_of(clips, [](const ClipDocument* clip) {
            return clip->isOpen() && !clip->isReading() && !clip->isBusy();
        });
    }));
}

void FilmingCoach::drop(const QStringList& files, std::size_t clipsThen)
{
    ++m_acts;
    QMimeData data;
    QList<QUrl> urls;
    for (const QString& file : files) {
        urls.append(QUrl::fromLocalFile(file));
    }
    data.setUrls(urls);
    // Qt hands a drop to whatever took the drag that entered before it.
    QDragEnterEvent enter(QPoint(200, 200), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(m_page, &enter);
    REQUIRE(enter.isAccepted());
    QDropEvent event(QPointF(200, 200), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(m_page, &event);
    const bool came = waitUntil([&] { return window().session()->clips().size() == clipsThen; });
    INFO(textsOf(*m_page).toStdString());
    REQUIRE(came);
    settle();
}

void FilmingCoach::show(FilmingPage::Part part)
{
    ++m_acts;
    m_page->side().setPart(part);
}

void FilmingCoach::press(const QString& button)
{
    ++m_acts;
    QAbstractButton& pressed = buttonNamed(*m_page, button);
    INFO(button.toStdString());
    REQUIRE(pressed.isEnabled());
    pressed.click();
}

void FilmingCoach::type(const QString& field, double value)
{
    ++m_acts;
    QCoreApplication::processEvents(); // a field just made comes into sight
    named<QDoubleSpinBox>(*m_page, field).setValue(value);
}

void FilmingCoach::typeText(const QString& field, const QString& text)
{
    ++m_acts;
    auto& line = named<QLineEdit>(*m_page, field);
    line.setFocus();
    line.selectAll();
    QTest::keyClicks(&line, text);
    QTest::keyClick(&line, Qt::Key_Return);
}

void FilmingCoach::choose(const QString& field, const QString& entry)
{
    ++m_acts;
    auto& box = named<QComboBox>(*m_page, field);
    const int row = box.findText(entry);
    INFO(entry.toStdString());
    REQUIRE(row >= 0);
    box.setCurrentIndex(row);
    emit box.activated(row);
}

void FilmingCoach::drag(PixelPoint from, PixelPoint to)
{
    ++m_acts;
    FrameView& view = m_page->view();
    REQUIRE(waitUntil([&] { return !view.pictureSize().isEmpty(); }));
    QTest::mousePress(&view, Qt::LeftButton, {}, onScreen(view, from));
    QTest::mouseMove(&view, onScreen(view, {(from.u + to.u) / 2, (from.v + to.v) / 2}));
    QTest::mouseMove(&view, onScreen(view, to));
    QTest::mouseRelease(&view, Qt::LeftButton, {}, onScreen(view, to));
}

void FilmingCoach::key(Qt::Key key, Qt::KeyboardModifiers modifiers)
{
    ++m_acts;
    m_page->setFocus();
    QTest::keyClick(m_page, key, modifiers);
}

} // namespace latemile::ui
