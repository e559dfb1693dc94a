// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/checks_table.hpp"

#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QGridLayout>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

QString headingOf(const std::vector<Check>& checks)
{
    const auto count = [&](Check::State state) {
        return std::ranges::count(checks, state, &Check::state);
    };
    return checks.empty() ? QString()
                          : ChecksTable::tr("Checks: %1 good, %2 in doubt, %3 bad")
                                .arg(count(Check::State::Good))
                                .arg(count(Check::State::Doubt))
                                .arg(count(Check::State::Bad));
}

} // namespace

ChecksTable::ChecksTable(QWidget* parent)
    : QWidget(parent), m_heading(headingLabel({}, this)), m_inner(new QWidget(this))
{
    m_inner->setProperty("rank", "page");
    m_grid = new QGridLayout(m_inner);
    m_grid->setContentsMargins(0, 0, gridStep, 0);
    m_grid->setHorizontalSpacing(gridStep);
    m_grid->setVerticalSpacing(gridStep / 2);
    m_grid->setColumnStretch(1, 1);
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_inner);
    scroll->setAccessibleName(tr("Checks of scene and marking"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep / 2);
    column->addWidget(m_heading);
    column->addWidget(scroll, 1);
}

void ChecksTable::setChecks(std::vector<Check> checks)
{
    while (QLayoutItem* item = m_grid->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    m_grid->setRowStretch(m_rows, 0);
    m_heading->setText(headingOf(checks));
    std::ranges::stable_sort(checks, std::ranges::greater{}, &Check::state);
    m_rows = 0;
    for (const Check& check : checks) {
        addRow(m_rows++, check);
    }
    m_grid->setRowStretch(m_rows, 1);
}

void ChecksTable::addRow(int row, const Check& check)
{
    auto* state =
        plainLabel(signFor(check.state) + QStringLiteral("  ") + wordFor(check.state), m_inner);
    setState(*state, std::string(nameOf(check.state)).c_str());
    auto* sentence = plainLabel(fromUtf8(check.sentence), m_inner);
    sentence->setWordWrap(true);
    m_grid->addWidget(state, row, 0, Qt::AlignTop);
    m_grid->addWidget(sentence, row, 1, Qt::AlignTop);
}

} // namespace latemile::ui
