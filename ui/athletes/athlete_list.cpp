// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/athletes/athlete_list.hpp"

#include "ui/athletes/consent_dialog.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QDate>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

enum Order { ByName, ByNextRefilm, ByEndOfConsent };

/// When pictures of the athlete may no longer be kept; none that ends: last.
QDate endOfConsent(const Athlete& athlete)
{
    const bool ends = athlete.consent && !athlete.consent->until.empty();
    return ends ? QDate::fromString(fromUtf8(athlete.consent->until), Qt::ISODate)
                : QDate(9999, 1, 1);
}

} // namespace

AthleteList::AthleteList(QWidget* parent)
    : QWidget(parent), m_search(new QLineEdit(this)), m_order(new QComboBox(this)),
      m_list(new QListWidget(this))
{
    m_search->setPlaceholderText(tr("Search by name or code"));
    m_search->setAccessibleName(tr("Search athletes"));
    m_search->setClearButtonEnabled(true);
    m_order->addItem(tr("By name"));
    m_order->addItem(tr("By next re-film"));
    m_order->addItem(tr("By end of consent"));
    m_order->setAccessibleName(tr("Order of the athletes"));
    m_list->setAccessibleName(tr("Athletes"));
    m_list->setSpacing(1);
    connect(m_search, &QLineEdit::textChanged, this, &AthleteList::fill);
    connect(m_order, &QComboBox::currentIndexChanged, this, [this] { show(m_library); });
    connect(m_list, &QListWidget::currentRowChanged, this, &AthleteList::chosenChanged);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_search);
    column->addWidget(m_order);
    column->addWidget(m_list, 1);
}

void AthleteList::show(const std::filesystem::path& library)
{
    const AthleteEntry* was = chosen();
    const auto folder = was == nullptr ? std::filesystem::path() : was->folder;
    m_library = library;
    m_athletes = athletesOf(library);
    sort();
    fill();
    if (!folder.empty()) {
        choose(folder);
    }
}

/// Who was never filmed has no day to be due on: last.
void AthleteList::sort()
{
    if (m_order->currentIndex() == ByNextRefilm) {
        std::ranges::stable_sort(m_athletes, {}, [](const AthleteEntry& entry) {
            return entry.nextRefilm.isValid() ? entry.nextRefilm : QDate(9999, 1, 1);
        });
    } else if (m_order->currentIndex() == ByEndOfConsent) {
        std::ranges::stable_sort(
            m_athletes, {}, [](const AthleteEntry& entry) { return endOfConsent(entry.athlete); });
    }
}

QString AthleteList::nameOf(const Athlete& athlete) const
{
    return fromUtf8(m_namesHidden || athlete.name.empty() ? athlete.code : athlete.name);
}

QString AthleteList::lineBelow(const AthleteEntry& entry, QDate today) const
{
    return m_order->currentIndex() == ByEndOfConsent ? consentText(entry.athlete)
                                                     : dueText(entry.nextRefilm, today);
}

void AthleteList::fill()
{
    const QString wanted = m_search->text().trimmed();
    const QDate today = QDate::currentDate();
    m_list->clear();
    for (std::size_t at = 0; at < m_athletes.size(); ++at) {
        const AthleteEntry& entry = m_athletes[at];
        const QString name = nameOf(entry.athlete);
        if (name.contains(wanted, Qt::CaseInsensitive) ||
            fromUtf8(entry.athlete.code).contains(wanted, Qt::CaseInsensitive)) {
            auto* item = new QListWidgetItem(name + u'\n' + lineBelow(entry, today), m_list);
            item->setData(Qt::UserRole, static_cast<int>(at));
            item->setToolTip(name.toHtmlEscaped());
        }
    }
    m_list->setCurrentRow(m_list->count() > 0 ? 0 : -1);
    emit chosenChanged();
}

const AthleteEntry* AthleteList::chosen() const
{
    const QListWidgetItem* item = m_list->currentItem();
    const int at = item == nullptr ? -1 : item->data(Qt::UserRole).toInt();
    return at < 0 || at >= static_cast<int>(m_athletes.size())
               ? nullptr
               : &m_athletes[static_cast<std::size_t>(at)];
}

void AthleteList::choose(const std::filesystem::path& folder)
{
    for (int row = 0; row < m_list->count(); ++row) {
        const int at = m_list->item(row)->data(Qt::UserRole).toInt();
        if (m_athletes[static_cast<std::size_t>(at)].folder == folder) {
            m_list->setCurrentRow(row);
        }
    }
}

void AthleteList::clearSearch()
{
    m_search->clear();
}

} // namespace latemile::ui
