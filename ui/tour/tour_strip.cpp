// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/tour/tour_strip.hpp"

#include "ui/page/labels.hpp"
#include "ui/theme/tokens.hpp"
#include "ui/tour/tour_stops.hpp"

#include <QCoreApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPushButton>
#include <QVBoxLayout>

namespace latemile::ui {

TourStrip::TourStrip(QWidget* parent)
    : QFrame(parent), m_title(headingLabel({}, this)), m_text(plainLabel({}, this)),
      m_back(new QPushButton(tr("Back"), this)), m_on(new QPushButton(tr("Next"), this)),
      m_leave(new QPushButton(tr("Leave the tour"), this))
{
    setProperty("rank", "strip");
    setAccessibleName(tr("Tour"));
    m_text->setWordWrap(true);
    m_on->setProperty("rank", "main");
    auto* words = new QVBoxLayout;
    words->setSpacing(gridStep / 2);
    words->addWidget(m_title);
    words->addWidget(m_text);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, gridStep);
    row->setSpacing(gridStep);
    row->addLayout(words, 1);
    row->addWidget(m_back);
    row->addWidget(m_on);
    row->addWidget(m_leave);
    connect(m_back, &QPushButton::clicked, this, [this] { goTo(m_at - 1); });
    connect(m_on, &QPushButton::clicked, this, [this] { goTo(m_at + 1); });
    connect(m_leave, &QPushButton::clicked, this, &TourStrip::leave);
    hide();
}

void TourStrip::begin()
{
    show();
    goTo(0);
}

void TourStrip::leave()
{
    hide();
}

void TourStrip::goTo(int stop)
{
    const auto stops = tourStops();
    const int count = static_cast<int>(stops.size());
    if (stop < 0) {
        return;
    }
    if (stop >= count) {
        leave();
        return;
    }
    m_at = stop;
    const TourStop& at = stops[static_cast<std::size_t>(stop)];
    m_title->setText(tr("%1 of %2   %3")
                         .arg(stop + 1)
                         .arg(count)
                         .arg(QCoreApplication::translate("Tour", at.title)));
    m_text->setText(QCoreApplication::translate("Tour", at.text));
    m_back->setEnabled(stop > 0);
    m_on->setText(stop + 1 == count ? tr("Done") : tr("Next"));
    emit pageWanted(QString::fromLatin1(at.page));
    m_on->setFocus();
}

void TourStrip::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        leave();
        return;
    }
    QFrame::keyPressEvent(event);
}

} // namespace latemile::ui
