// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/keys/keys.hpp"

#include "ui/keys/key_table.hpp"

#include <QAbstractButton>
#include <QCoreApplication>
#include <QSettings>
#include <QWidget>

namespace latemile::ui {
namespace {

const KeyEntry* entryOf(const QString& id)
{
    for (const KeyEntry& entry : keyTable()) {
        if (id == QLatin1String(entry.id)) {
            return &entry;
        }
    }
    return nullptr;
}

/// Keys of the picture work on the pages that have their own keys too.
bool liveTogether(const KeyEntry& a, const KeyEntry& b)
{
    return qstrcmp(a.group, b.group) == 0 || qstrcmp(a.group, "Everywhere") == 0 ||
           qstrcmp(b.group, "Everywhere") == 0 || qstrcmp(a.group, "Picture") == 0 ||
           qstrcmp(b.group, "Picture") == 0;
}

QString settingOf(const QString& id)
{
    return QStringLiteral("keys/") + id;
}

} // namespace

Keys::Keys(QObject* parent) : QObject(parent)
{
    const QSettings settings;
    for (const KeyEntry& entry : keyTable()) {
        const QString id = QString::fromLatin1(entry.id);
        const QString keys =
            settings.value(settingOf(id), QString::fromLatin1(entry.keys)).toString();
        m_keys[id] = QKeySequence(keys, QKeySequence::PortableText);
    }
}

QAction* Keys::action(const char* id, QWidget* owner, std::function<void()> act)
{
    auto* made = new QAction(nameOf(QString::fromLatin1(id)), owner);
    made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    connect(made, &QAction::triggered, owner, [act = std::move(act)] { act(); });
    owner->addAction(made);
    m_actions[QString::fromLatin1(id)].emplace_back(made);
    apply(QString::fromLatin1(id));
    return made;
}

QKeySequence Keys::of(const QString& id) const
{
    return m_keys.value(id);
}

QString Keys::textOf(const char* id) const
{
    return of(QString::fromLatin1(id)).toString(QKeySequence::NativeText);
}

void Keys::label(QAbstractButton& button, const char* id, const QString& text)
{
    const auto tell = [this, &button, id, text] {
        const QString key = textOf(id);
        const QString name = nameOf(QString::fromLatin1(id));
        if (!text.isEmpty()) {
            button.setText(key.isEmpty() ? text : QStringLiteral("%1   %2").arg(text, key));
        }
        button.setToolTip(key.isEmpty() ? name : QStringLiteral("%1 (%2)").arg(name, key));
        button.setAccessibleName(name);
    };
    tell();
    connect(this, &Keys::changed, &button, [tell, id](const QString& changedId) {
        if (changedId == QLatin1String(id)) {
            tell();
        }
    });
}

QString Keys::nameOf(const QString& id)
{
    const KeyEntry* entry = entryOf(id);
    return entry == nullptr ? QString() : QCoreApplication::translate("Keys", entry->name);
}

QString Keys::conflict(const QString& id, const QKeySequence& keys) const
{
    const KeyEntry* wanted = entryOf(id);
    if (wanted == nullptr || keys.isEmpty()) {
        return {};
    }
    for (const KeyEntry& entry : keyTable()) {
        const QString other = QString::fromLatin1(entry.id);
        if (other != id && m_keys.value(other) == keys && liveTogether(*wanted, entry)) {
            return nameOf(other);
        }
    }
    return {};
}

void Keys::set(const QString& id, const QKeySequence& keys)
{
    m_keys[id] = keys;
    QSettings().setValue(settingOf(id), keys.toString(QKeySequence::PortableText));
    apply(id);
}

void Keys::resetAll()
{
    QSettings settings;
    for (const KeyEntry& entry : keyTable()) {
        const QString id = QString::fromLatin1(entry.id);
        settings.remove(settingOf(id));
        m_keys[id] = QKeySequence(QString::fromLatin1(entry.keys), QKeySequence::PortableText);
        apply(id);
    }
}

void Keys::apply(const QString& id)
{
    for (const auto& action : m_actions.value(id)) {
        if (!action) {
            continue;
        }
        QList<QKeySequence> keys{m_keys.value(id)};
        if (keys.first() == QKeySequence(Qt::Key_Return)) {
            keys.append(QKeySequence(Qt::Key_Enter));
        }
        if (keys.first() == QKeySequence(Qt::Key_Plus)) {
            keys.append(QKeySequence(Qt::Key_Equal));
        }
        action->setShortcuts(keys);
    }
    emit changed(id);
}

} // namespace latemile::ui
