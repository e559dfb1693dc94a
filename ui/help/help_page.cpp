// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/help_page.hpp"

#include "ui/help/measure_picture.hpp"
#include "ui/page/labels.hpp"
#include "ui/page/resource_file.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QFrame>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int widestText = 100 * gridStep; ///< longer lines are hard to read back from

/// As sharp as the screen: the file is of twice the size it is shown at.
QLabel* stillPicture(const HelpTopic& topic, QWidget* parent)
{
    auto* label = new QLabel(parent);
    QPixmap picture(QString::fromStdString(resourceFile(topic.picture).string()));
    picture.setDevicePixelRatio(2.0);
    label->setPixmap(picture);
    label->setAccessibleName(topic.caption);
    return label;
}

} // namespace

HelpPage::HelpPage(const Keys& keys, QWidget* parent)
    : QWidget(parent), m_keys(keys), m_topics(helpTopics(keys)), m_text(new QScrollArea(this))
{
    m_text->setWidgetResizable(true);
    m_text->setFrameShape(QFrame::NoFrame);
    m_text->setAccessibleName(tr("Help text"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    row->setSpacing(3 * gridStep);
    row->addWidget(buildSide());
    row->addWidget(m_text, 1);
    fill();
}

QWidget* HelpPage::buildSide()
{
    auto* side = new QWidget(this);
    m_search = new QLineEdit(side);
    m_search->setPlaceholderText(tr("Search help"));
    m_search->setAccessibleName(tr("Search help"));
    m_search->setClearButtonEnabled(true);
    m_list = new QListWidget(side);
    m_list->setAccessibleName(tr("Help topics"));
    auto* keys = new QPushButton(tr("Change keys…"), side);
    connect(m_search, &QLineEdit::textChanged, this, &HelpPage::fill);
    connect(m_list, &QListWidget::currentRowChanged, this, &HelpPage::showChosen);
    connect(keys, &QPushButton::clicked, this, &HelpPage::keysWanted);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_search);
    column->addWidget(m_list, 1);
    column->addWidget(keys);
    side->setFixedWidth(36 * gridStep);
    return side;
}

void HelpPage::fill()
{
    const QString was = shownTopic();
    m_list->clear();
    for (const HelpTopic& topic : m_topics) {
        if (topic.holds(m_search->text())) {
            auto* item = new QListWidgetItem(topic.title, m_list);
            item->setData(Qt::UserRole, topic.id);
            item->setToolTip(topic.title.toHtmlEscaped());
        }
    }
    choose(was);
}

/// The topic if it is in the list, else the first.
void HelpPage::choose(const QString& id)
{
    int wanted = m_list->count() > 0 ? 0 : -1;
    for (int row = 0; row < m_list->count(); ++row) {
        if (m_list->item(row)->data(Qt::UserRole).toString() == id) {
            wanted = row;
        }
    }
    m_list->setCurrentRow(wanted);
    showChosen();
}

QString HelpPage::shownTopic() const
{
    const QListWidgetItem* item = m_list->currentItem();
    return item == nullptr ? QString() : item->data(Qt::UserRole).toString();
}

void HelpPage::showTopic(const QString& id)
{
    m_search->clear(); // An old search must not hide what is asked for now.
    // A measure that help does not know is one of the coach's own.
    const bool known =
        id.isEmpty() || std::ranges::find(m_topics, id, &HelpTopic::id) != m_topics.end();
    choose(known ? id : QStringLiteral("own_measures"));
}

void HelpPage::showChosen()
{
    const QString id = shownTopic();
    const auto topic = std::ranges::find(m_topics, id, &HelpTopic::id);
    m_text->setWidget(topic == m_topics.end() ? textOf({}) : textOf(*topic));
}

QWidget* HelpPage::textOf(const HelpTopic& topic)
{
    auto* page = new QWidget;
    page->setProperty("rank", "page");
    page->setMaximumWidth(widestText);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, gridStep, 0);
    column->setSpacing(2 * gridStep);
    column->addWidget(titleLabel(topic.title.isEmpty() ? tr("Nothing found") : topic.title, page));
    if (topic.measure != nullptr) {
        auto* picture = new MeasurePicture(page);
        picture->setMeasure(topic.measure);
        column->addWidget(picture);
        auto* caption = quietLabel(captionOf(*topic.measure), page);
        caption->setWordWrap(true);
        column->addWidget(caption);
    }
    if (topic.picture != nullptr) {
        column->addWidget(stillPicture(topic, page));
        auto* caption = quietLabel(topic.caption, page);
        caption->setWordWrap(true);
        column->addWidget(caption);
    }
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(2 * gridStep);
    grid->setVerticalSpacing(gridStep);
    for (const auto& [heading, words] : topic.rows) {
        const int row = grid->rowCount();
        auto* text = plainLabel(words, page);
        text->setWordWrap(true);
        text->setTextInteractionFlags(Qt::TextSelectableByMouse);
        grid->addWidget(headingLabel(heading, page), row, 0, Qt::AlignTop);
        grid->addWidget(text, row, 1);
    }
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    column->addStretch();
    return page;
}

void HelpPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    m_topics = helpTopics(m_keys); // The coach may have changed keys since.
    showChosen();
}

void HelpPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        emit left();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace latemile::ui
