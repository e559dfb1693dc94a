// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QSet>
#include <QWidget>

class QComboBox;
class QHBoxLayout;
class QLabel;

namespace latemile::ui {

class ClipDocument;

/// What the file is, in plain words; and where it could be slow motion, the question how it was
/// filmed, whose answer is remembered for the camera.
class ClipPart final : public QWidget {
    Q_OBJECT
public:
    explicit ClipPart(QWidget* parent = nullptr);
    void setClip(ClipDocument* clip);
    /// Answers the question of a clip just added as it was answered for its camera before.
    void answerFromMemory(ClipDocument& clip);
    [[nodiscard]] bool hasQuestion() const;

signals:
    void changed();

private:
    void build();
    void tell();
    void tellQuestion();
    void takeRate();
    void answer(double rate);

    QPointer<ClipDocument> m_clip;
    QSet<const QObject*> m_fromMemory; ///< clips answered so
    QLabel* m_facts;
    QLabel* m_remarks;
    QWidget* m_question;
    QLabel* m_asked;
    QHBoxLayout* m_answers;
    QComboBox* m_rate;
    QLabel* m_remembered;
};

} // namespace latemile::ui
