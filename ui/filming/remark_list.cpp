// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/remark_list.hpp"

#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QPushButton>
#include <QVBoxLayout>

namespace latemile::ui {

RemarkList::RemarkList(const QString& name, QWidget* parent)
    : QWidget(parent), m_column(new QVBoxLayout(this))
{
    m_column->setContentsMargins(0, 0, 0, 0);
    m_column->setSpacing(gridStep);
    setAccessibleName(name);
}

void RemarkList::setRemarks(const std::vector<Remark>& remarks, const std::optional<Offer>& offer)
{
    if (remarks == m_remarks && offer == m_offer) {
        return;
    }
    m_remarks = remarks;
    m_offer = offer;
    while (QLayoutItem* item = m_column->takeAt(0)) {
        // The offer's own button may be what brought the new remarks.
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
    for (const Remark& remark : remarks) {
        addLine(remark);
        if (offer && offer->about == remark.about) {
            addOffer(*offer);
        }
    }
}

void RemarkList::addLine(const Remark& remark)
{
    auto* line = new QWidget(this);
    QLabel* sign = plainLabel(signFor(remark.state), line);
    QLabel* sentence = plainLabel(fromUtf8(remark.sentence), line);
    const auto state = std::string(nameOf(remark.state));
    setState(*sign, state.c_str());
    setState(*sentence, remark.state == Check::State::Good ? "" : state.c_str());
    sign->setFixedWidth(2 * gridStep);
    sign->setAlignment(Qt::AlignTop);
    sign->setAccessibleName(wordFor(remark.state));
    sentence->setWordWrap(true);
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(gridStep / 2);
    row->addWidget(sign);
    row->addWidget(sentence, 1);
    m_column->addWidget(line);
}

void RemarkList::addOffer(const Offer& offer)
{
    auto* line = new QWidget(this);
    auto* button = new QPushButton(offer.words, line);
    auto* row = new QHBoxLayout(line);
    // Under the sentence it answers.
    row->setContentsMargins(2 * gridStep + gridStep / 2, 0, 0, 0);
    row->addWidget(button);
    row->addStretch();
    connect(button, &QPushButton::clicked, this, &RemarkList::offerTaken);
    m_column->addWidget(line);
}

} // namespace latemile::ui
