// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"
#include "ui/own_measures/own_trial.hpp"

#include <QDialog>
#include <QTimer>

#include <vector>

class QLabel;
class QListWidget;
class QPushButton;

namespace latemile::ui {

class ClipDocument;
class OwnMeasureForm;
class SessionDocument;

/// The coach's own measures: a list, and the chosen one in fields with what it reads on the clip at
/// hand or what is wrong with it. Nothing is kept before Keep; a document that cannot be read is
/// told and left alone.
class OwnMeasuresDialog final : public QDialog {
    Q_OBJECT
public:
    OwnMeasuresDialog(SessionDocument& session, const ClipDocument* clip,
                      QWidget* parent = nullptr);

    void accept() override;
    void reject() override;

    [[nodiscard]] QListWidget& list() const { return *m_list; }
    [[nodiscard]] OwnMeasureForm& form() const { return *m_form; }
    /// What stands above the buttons; empty while there is nothing to say.
    [[nodiscard]] QString told() const;

private:
    QWidget* buildList();
    QWidget* buildButtons();
    void fill(int row);
    void showRow(int row);
    void takeForm();
    void tellRow();
    void nameRow(int row);
    void add(OwnMeasure measure);
    void copyChosen();
    void removeChosen();
    void say(const QString& sentence);
    [[nodiscard]] bool isKept(const OwnMeasure& measure) const;
    [[nodiscard]] std::string freeId(const std::string& wanted) const;

    SessionDocument& m_session;
    const OwnTrial m_trial;
    std::vector<OwnMeasure> m_measures;
    QListWidget* m_list;
    OwnMeasureForm* m_form;
    QPushButton* m_add{};
    QPushButton* m_copy{};
    QPushButton* m_remove{};
    QPushButton* m_keep{};
    QLabel* m_told;
    QTimer m_pause; ///< a value while typing is read once the fingers rest
    bool m_asked{}; ///< that changes would be lost
};

} // namespace latemile::ui
