// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QPointer>
#include <QString>

class QProgressDialog;
class QWidget;

namespace latemile::ui {

class LongWork;

/// Shows over a window how far a piece of work is, once it takes more than half a second, with a
/// button that stops it. Lives as long as the work.
class ProgressBox final : public QObject {
    Q_OBJECT
public:
    ProgressBox(LongWork& work, QWidget* window);
    /// What the next piece of work is called.
    void setWords(const QString& words) { m_words = words; }

private:
    void show(int percent);
    void hide();

    LongWork& m_work;
    QWidget* m_window;
    QString m_words;
    QPointer<QProgressDialog> m_box;
};

} // namespace latemile::ui
