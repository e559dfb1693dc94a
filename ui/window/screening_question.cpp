// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/screening_question.hpp"

#include "ui/athletes/screening_dialog.hpp"
#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"

#include <QCoreApplication>
#include <QPointer>

#include <utility>

namespace latemile::ui {

void askBeforeFilming(SessionDocument& session, QWidget* parent, std::function<void()> answered)
{
    auto* dialog = new ScreeningDialog(session.about().screening.value_or(Screening{}), parent);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    const QPointer<SessionDocument> asked(&session);
    QObject::connect(
        dialog, &QDialog::accepted, parent, [dialog, asked, answered = std::move(answered)] {
            if (!asked) {
                return;
            }
            SessionAbout about = asked->about();
            about.screening = dialog->screening();
            asked->history().push(new SetAbout(
                *asked, about,
                QCoreApplication::translate("MainWindow", "answer the questions before filming"),
                -1));
            asked->saver().saveNow();
            answered();
        });
    dialog->open();
}

} // namespace latemile::ui
