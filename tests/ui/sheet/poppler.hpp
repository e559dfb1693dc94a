// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGuiApplication>
#include <QProcess>
#include <QString>
#include <QStringList>

#include <filesystem>

namespace latemile::tests {

/// Fonts need an application; a screen they do not.
inline void haveApplication()
{
    static int argc = 1;
    static char name[] = "sheet_test";
    static char* argv[] = {name, nullptr};
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    static QGuiApplication application(argc, argv);
}

/// What a program of poppler or qpdf says of a file; spaces and line ends run together, so that a
/// broken line is still found. Empty when the program fails.
inline QString told(const QString& program, const QStringList& arguments)
{
    QProcess process;
    process.start(program, arguments);
    if (!process.waitForFinished(60000) || process.exitCode() != 0) {
        return {};
    }
    return QString::fromUtf8(process.readAllStandardOutput());
}

inline QString pdfText(const std::filesystem::path& file)
{
    return told(
               QStringLiteral("pdftotext"),
               {QStringLiteral("-raw"), QString::fromStdString(file.string()), QStringLiteral("-")})
        .simplified();
}

} // namespace latemile::tests
