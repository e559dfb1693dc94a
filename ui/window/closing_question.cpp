// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/closing_question.hpp"

#include "ui/window/main_window.hpp"

#include <QMessageBox>

namespace latemile::ui {

bool closesUnsaved(QWidget* window, const QString& fault)
{
    const auto answer = QMessageBox::warning(
        window, MainWindow::tr("Not saved"),
        MainWindow::tr("%1\n\nClose all the same? The last edits would be lost.").arg(fault),
        QMessageBox::Close | QMessageBox::Cancel, QMessageBox::Cancel);
    return answer == QMessageBox::Close;
}

} // namespace latemile::ui
