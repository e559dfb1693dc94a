// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/camera_memory.hpp"

#include <QSettings>
#include <QUrl>

namespace latemile::ui {
namespace {

/// A make may hold a slash, which the settings would read as a group.
QString keyOf(const std::string& signature)
{
    return QStringLiteral("filming/cameras/") +
           QString::fromLatin1(QUrl::toPercentEncoding(QString::fromStdString(signature)));
}

} // namespace

std::optional<double> rememberedSlowMotion(const std::string& signature)
{
    bool known = false;
    const double factor = QSettings().value(keyOf(signature)).toDouble(&known);
    return known && factor > 0 ? std::optional(factor) : std::nullopt;
}

void rememberSlowMotion(const std::string& signature, double factor)
{
    QSettings().setValue(keyOf(signature), factor);
}

} // namespace latemile::ui
