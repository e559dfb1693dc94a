// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/work_bar.hpp"

#include "ui/page/labels.hpp"
#include "ui/theme/tokens.hpp"

#include <QHBoxLayout>
#include <QProgressBar>
#include <QPushButton>

#include <algorithm>

namespace latemile::ui {

WorkBar::WorkBar(QWidget* parent)
    : QWidget(parent), m_name(plainLabel({}, this)), m_progress(new QProgressBar(this)),
      m_stop(new QPushButton(tr("Stop"), this))
{
    m_progress->setRange(0, 100);
    m_progress->setFixedWidth(24 * gridStep);
    m_progress->setAccessibleName(tr("Progress"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep);
    row->addWidget(m_name, 1);
    row->addWidget(m_progress);
    row->addWidget(m_stop);
    m_wait.setSingleShot(true);
    m_wait.setInterval(500);
    connect(&m_wait, &QTimer::timeout, this, [this] { setVisible(isBusy()); });
    connect(m_stop, &QPushButton::clicked, this, [this] {
        if (isBusy()) {
            emit stopWanted(m_works.back().id);
        }
    });
    hide();
}

void WorkBar::setWork(const QString& id, const QString& name, int percent)
{
    const auto found = std::ranges::find(m_works, id, &Work::id);
    if (found == m_works.end()) {
        if (m_works.empty()) {
            m_wait.start();
        }
        m_works.push_back({id, name, percent});
    } else {
        *found = {id, name, percent};
    }
    tell();
}

void WorkBar::endWork(const QString& id)
{
    std::erase_if(m_works, [&id](const Work& work) { return work.id == id; });
    tell();
}

void WorkBar::tell()
{
    if (m_works.empty()) {
        m_wait.stop();
        hide();
        return;
    }
    m_name->setText(
        m_name->fontMetrics().elidedText(m_works.back().name, Qt::ElideMiddle, 60 * gridStep));
    m_progress->setValue(m_works.back().percent);
}

} // namespace latemile::ui
