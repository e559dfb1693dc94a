// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/selection.hpp"
#include "ui/practice/practice_copy.hpp"

#include <QPointer>
#include <QWidget>

#include <memory>
#include <vector>

class QCheckBox;
class QComboBox;
class QLabel;
class QUndoStack;
class QVBoxLayout;

namespace latemile::ui {

class Keys;
class MarksPage;
class TruthOverlay;

/// Marking practised on a rendered clip whose truth is known: the marking page as it is, and under
/// it how far each mark and each event lies from the truth.
class PracticePage final : public QWidget {
    Q_OBJECT
public:
    PracticePage(std::filesystem::path athleteFolder, Keys& keys, QWidget* parent = nullptr);
    ~PracticePage() override;

    /// Null while no clip could be copied.
    [[nodiscard]] QUndoStack* history() const;
    [[nodiscard]] MarksPage* marks() const;
    [[nodiscard]] SessionDocument* session() const;
    [[nodiscard]] QString marksTold() const;
    [[nodiscard]] QString eventsTold() const;
    void setTruthShown(bool shown);

signals:
    void left();

private:
    QWidget* buildHead();
    QWidget* buildFoot();
    void startAgain();
    void drop();
    void tell();

    Keys& m_keys;
    std::vector<PracticeClip> m_clips;
    Selection m_selection;
    std::unique_ptr<PracticeCopy> m_copy;
    QPointer<MarksPage> m_marks;
    QPointer<TruthOverlay> m_overlay;
    QVBoxLayout* m_column;
    QComboBox* m_choice{};
    QCheckBox* m_show{};
    QLabel* m_told{};
    QLabel* m_marksTold{};
    QLabel* m_eventsTold{};
};

} // namespace latemile::ui
