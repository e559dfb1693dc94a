// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/quiet_application.hpp"

#include <QGuiApplication>

#include <iostream>

namespace latemile::batch {

namespace {

void keepGraveMessages(QtMsgType type, const QMessageLogContext&, const QString& message)
{
    if (type == QtCriticalMsg || type == QtFatalMsg) {
        std::cerr << message.toStdString() << std::endl;
    }
}

} // namespace

QuietApplication::QuietApplication()
{
    qInstallMessageHandler(&keepGraveMessages);
    // Nobody looks on: without this the program would want a display it does not need.
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    static char name[] = "latemile-batch";
    static char* arguments[] = {name, nullptr};
    static int count = 1;
    m_application = std::make_unique<QGuiApplication>(count, arguments);
}

QuietApplication::~QuietApplication() = default;

} // namespace latemile::batch
