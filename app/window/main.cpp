// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/decoding_place.hpp"
#include "core/clip/worker/worker_main.hpp"
#include "ui/athletes/athletes_page.hpp"
#include "ui/athletes/sample_library.hpp"
#include "ui/theme/theme.hpp"
#include "ui/window/end_signals.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/main_window.hpp"
#include "ui/window/settings_file.hpp"
#include "ui/window/window_state.hpp"

#include <QApplication>
#include <QCommandLineParser>
#include <QSettings>
#include <QTextStream>

#include <algorithm>

namespace {

using namespace latemile;

/// The scale must be known before the first window: read from the arguments by hand.
void applyScale(int argc, char* argv[])
{
    int percent = QSettings().value(QStringLiteral("scale"), 100).toInt();
    for (int n = 1; n + 1 < argc; ++n) {
        if (qstrcmp(argv[n], "--scale") == 0) {
            percent = QByteArray(argv[n + 1]).toInt();
        }
    }
    qputenv("QT_SCALE_FACTOR", QByteArray::number(std::clamp(percent, 100, 200) / 100.0));
}

int refuse(const QString& sentence, int code)
{
    QTextStream(stderr) << sentence << '\n';
    return code;
}

} // namespace

int main(int argc, char* argv[])
{
    serveIfWorker(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("Latemile"));
    QCoreApplication::setApplicationName(QStringLiteral("latemile"));
    QCoreApplication::setApplicationVersion(QStringLiteral("0.1.0"));
    ui::keepSettingsWhole();
    applyScale(argc, argv);
    QApplication application(argc, argv);

    QCommandLineParser parser;
    parser.setApplicationDescription(QStringLiteral("Video gait review for running coaches"));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument(QStringLiteral("folder"),
                                 QStringLiteral("A library, an athlete or a session"),
                                 QStringLiteral("[FOLDER]"));
    const QCommandLineOption grab(QStringLiteral("grab"),
                                  QStringLiteral("Render every page to PNG files there, and end"),
                                  QStringLiteral("folder"));
    const QCommandLineOption theme(QStringLiteral("theme"), QStringLiteral("light, dark or system"),
                                   QStringLiteral("name"));
    const QCommandLineOption scale(QStringLiteral("scale"),
                                   QStringLiteral("Size of everything, 100 to 200 percent"),
                                   QStringLiteral("percent"));
    const QCommandLineOption size(QStringLiteral("size"),
                                  QStringLiteral("Size of the pictures of --grab"),
                                  QStringLiteral("WIDTHxHEIGHT"), QStringLiteral("1440x900"));
    const QCommandLineOption inProcess(
        QStringLiteral("in-process"),
        QStringLiteral("Decode clips in this process, not in confined ones; for clips you trust"));
    parser.addOptions({grab, theme, scale, size, inProcess});
    parser.process(application);
    if (!parser.isSet(inProcess)) {
        decodeInWorkers();
    }

    const QString themeWord =
        parser.isSet(theme)
            ? parser.value(theme)
            : QSettings().value(QStringLiteral("theme"), QStringLiteral("system")).toString();
    const auto choice = ui::themeNamed(themeWord);
    if (!choice) {
        return refuse(QStringLiteral("--theme takes light, dark or system."), 2);
    }
    ui::applyTheme(application, *choice);

    ui::MainWindow window;
    const ui::EndSignals endSignals;
    QObject::connect(&endSignals, &ui::EndSignals::came, &window, [&window] {
        window.endNow();
        QCoreApplication::exit(0);
    });
    if (parser.isSet(grab)) {
        const QStringList sides = parser.value(size).split(u'x');
        const QSize wanted(sides.value(0).toInt(), sides.value(1).toInt());
        if (wanted.isEmpty()) {
            return refuse(QStringLiteral("--size takes WIDTHxHEIGHT, as in 1280x800."), 2);
        }
        if (parser.positionalArguments().isEmpty()) {
            return refuse(QStringLiteral("--grab needs the folder of a session."), 2);
        }
        const auto opened = window.open(parser.positionalArguments().first().toStdString());
        const auto done = opened ? ui::grabPages(window, parser.value(grab), wanted) : opened;
        return done ? 0 : refuse(QString::fromStdString(done.error().sentence), 1);
    }
    const ui::WindowMemory memory = ui::recallWindow(window);
    window.setNamesHidden(memory.namesHidden);
    const QString named = parser.positionalArguments().value(0);
    const QString folder = named.isEmpty() ? memory.folder : named;
    window.show();
    if (!folder.isEmpty() && window.open(folder.toStdString())) {
        // Whoever names a session wants to see it, whatever was looked at last time.
        if (named.isEmpty()) {
            window.showPage(memory.page);
        }
    } else {
        window.athletes().setLibrary(ui::ownLibrary());
    }
    return QApplication::exec();
}
