// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/settings_file.hpp"

#include <QCoreApplication>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSettings>

namespace latemile::ui {
namespace {

/// JSON has no bytes; a window's place is such.
const auto bytesKey = QStringLiteral("base64");

QJsonValue jsonOf(const QVariant& value)
{
    if (value.typeId() == QMetaType::QByteArray) {
        return QJsonObject{{bytesKey, QString::fromLatin1(value.toByteArray().toBase64())}};
    }
    return QJsonValue::fromVariant(value);
}

QVariant valueOf(const QJsonValue& json)
{
    const QJsonValue bytes = json.toObject().value(bytesKey);
    return bytes.isString() ? QVariant(QByteArray::fromBase64(bytes.toString().toLatin1()))
                            : json.toVariant();
}

/// A file that is no JSON is taken for none: settings are no work of anybody's.
bool readSettings(QIODevice& device, QSettings::SettingsMap& map)
{
    const QJsonObject all = QJsonDocument::fromJson(device.readAll()).object();
    for (auto one = all.begin(); one != all.end(); ++one) {
        map.insert(one.key(), valueOf(one.value()));
    }
    return true;
}

bool writeSettings(QIODevice& device, const QSettings::SettingsMap& map)
{
    QJsonObject all;
    for (auto one = map.begin(); one != map.end(); ++one) {
        all.insert(one.key(), jsonOf(one.value()));
    }
    const QByteArray text = QJsonDocument(all).toJson();
    auto* file = qobject_cast<QFileDevice*>(&device);
    // Nothing may be left for its closing to write, where a full disk goes unnoticed.
    return device.write(text) == text.size() && file != nullptr && file->flush();
}

/// The old file goes, since what is forgotten from now on would stay in it.
void takeOverOldSettings()
{
    const QSettings before(QSettings::NativeFormat, QSettings::UserScope,
                           QCoreApplication::organizationName(),
                           QCoreApplication::applicationName());
    if (!QFile::exists(before.fileName())) {
        return;
    }
    QSettings now;
    const QStringList keys = before.allKeys();
    for (const QString& key : keys) {
        if (!now.contains(key)) {
            now.setValue(key, before.value(key));
        }
    }
    now.sync();
    if (now.status() == QSettings::NoError) {
        QFile::remove(before.fileName());
    }
}

} // namespace

void keepSettingsWhole()
{
    QSettings::setDefaultFormat(QSettings::registerFormat(QStringLiteral("json"), &readSettings,
                                                          &writeSettings, Qt::CaseSensitive));
    takeOverOldSettings();
}

} // namespace latemile::ui
