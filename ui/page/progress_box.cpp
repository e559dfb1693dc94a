// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/progress_box.hpp"

#include "ui/document/long_work.hpp"

#include <QProgressDialog>

namespace latemile::ui {

ProgressBox::ProgressBox(LongWork& work, QWidget* window)
    : QObject(&work), m_work(work), m_window(window)
{
    connect(&work, &LongWork::progress, this, &ProgressBox::show);
    connect(&work, &LongWork::ended, this, &ProgressBox::hide);
}

void ProgressBox::show(int percent)
{
    constexpr int halfASecond = 500;
    constexpr int whole = 100;
    if (!m_box) {
        m_box = new QProgressDialog(m_words, tr("Stop"), 0, whole, m_window);
        m_box->setWindowModality(Qt::WindowModal);
        m_box->setWindowTitle(m_words);
        m_box->setMinimumDuration(halfASecond);
        m_box->setAutoClose(false);
        m_box->setAutoReset(false);
        connect(m_box, &QProgressDialog::canceled, &m_work, &LongWork::stop);
    }
    m_box->setValue(percent);
}

void ProgressBox::hide()
{
    if (m_box) {
        m_box->deleteLater(); // it may be the one whose button was pressed
        m_box = nullptr;
    }
}

} // namespace latemile::ui
