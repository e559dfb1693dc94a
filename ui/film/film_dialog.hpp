// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/film/film_plan.hpp"

#include <QDialog>

#include <vector>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QSpinBox;

namespace latemile::ui {

class ClipDocument;
class FilmWork;
class SessionDocument;

/// What a film of this session's steps shows, and its making. The sheet's consent rule holds for it
/// too: without consent the reason stands there and nothing can be saved.
class FilmDialog final : public QDialog {
    Q_OBJECT
public:
    explicit FilmDialog(const SessionDocument& session, QWidget* parent = nullptr);

    /// As the fields say now; an Error where there is no step to show.
    [[nodiscard]] Outcome<FilmPlan> plan() const;
    /// Makes the film; how it went is told in the dialog.
    void saveTo(const QString& file);
    [[nodiscard]] QComboBox& clips() const { return *m_clips; }
    [[nodiscard]] QSpinBox& steps() const { return *m_steps; }
    [[nodiscard]] QString told() const;

private:
    void build();
    void offerClips();
    void tellLength();
    void askAndSave();
    void tell(const QString& sentence, const char* state);
    [[nodiscard]] const ClipDocument* clipOf(const char* condition) const;
    [[nodiscard]] FilmWish wish() const;

    const SessionDocument& m_session;
    QComboBox* m_clips;
    QSpinBox* m_steps;
    QDoubleSpinBox* m_slower;
    QCheckBox* m_numbers;
    QLabel* m_told;
    QPushButton* m_save;
    FilmWork* m_work;
};

} // namespace latemile::ui
