// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>

class QVBoxLayout;

namespace latemile::ui {

class ClipDocument;

/// What of a clip can be trusted and what would help: one line an item, with a sign, a word and a
/// sentence.
class CheckList final : public QWidget {
    Q_OBJECT
public:
    explicit CheckList(QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);

private:
    void tell();
    void add(const char* state, const QString& sentence);

    QPointer<ClipDocument> m_clip;
    QVBoxLayout* m_column;
};

} // namespace latemile::ui
