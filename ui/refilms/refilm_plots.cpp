// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilm_plots.hpp"

#include "core/measures/measure.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QFrame>
#include <QGridLayout>
#include <QGuiApplication>

#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int narrowestCard = 40 * gridStep;

QString titleOf(const Measure& measure, const Course& course)
{
    const QString unit = unitText(measure.unit);
    QString title = fromUtf8(measure.name);
    if (course.foot) {
        title += QStringLiteral(", ") + wordFor(*course.foot);
    }
    return unit.isEmpty() ? title : title + QStringLiteral(" (%1)").arg(unit);
}

/// What a person who does not see the plot is told.
QString spokenOf(const PlotPlan& plan)
{
    QStringList told;
    const auto add = [&](const Course* course, const QString& condition) {
        if (course == nullptr) {
            return;
        }
        for (const RefilmPoint& point : course->points) {
            if (point.mean) {
                told.append(QStringLiteral("%1, %2: %3")
                                .arg(condition, fromUtf8(point.date),
                                     roundedText(*point.mean, point.halfWidth, *plan.measure)));
            }
        }
    };
    add(plan.fresh, wordForCondition("fresh"));
    add(plan.fatigued, wordForCondition("fatigued"));
    return told.join(QStringLiteral("; "));
}

/// Under a plot: how many days it leaves out, and why.
QString leftOut(const PlotPlan& plan)
{
    for (const Course* course : {plan.fatigued, plan.fresh}) {
        if (course == nullptr) {
            continue;
        }
        for (const RefilmPoint& point : course->points) {
            if (!point.whyNot.empty()) {
                return RefilmPlots::tr("Left out %1: %2")
                    .arg(fromUtf8(point.date), fromUtf8(point.whyNot));
            }
        }
    }
    return {};
}

/// Under a plot: the slope over the months, once there are days enough for its error.
QString trendOf(const PlotPlan& plan)
{
    const Course* course = plan.fatigued != nullptr ? plan.fatigued : plan.fresh;
    const bool told = course != nullptr && course->trend && course->trend->interval;
    return told ? fromUtf8(course->trend->sentence) : QString();
}

} // namespace

RefilmPlots::RefilmPlots(QWidget* parent)
    : QScrollArea(parent), m_inside(new QWidget(this)), m_grid(new QGridLayout(m_inside))
{
    setAccessibleName(tr("Plots"));
    m_inside->setProperty("rank", "page");
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setSpacing(gridStep);
    setWidget(m_inside);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
}

QWidget* RefilmPlots::cardOf(const PlotPlan& plan, const std::vector<CueSpan>& cues)
{
    auto* card = new QFrame(m_inside);
    card->setProperty("rank", "card");
    const Course& any = plan.fatigued != nullptr ? *plan.fatigued : *plan.fresh;
    auto* column = new QVBoxLayout(card);
    column->setContentsMargins(gridStep, gridStep, gridStep, gridStep);
    column->setSpacing(gridStep / 2);
    auto* title = headingLabel(titleOf(*plan.measure, any), card);
    title->setWordWrap(true);
    column->addWidget(title);
    QWidget* plot = refilmPlot(*plan.measure, plan.fresh, plan.fatigued, cues,
                               tokensOf(QGuiApplication::palette()), card);
    plot->setAccessibleName(titleOf(*plan.measure, any));
    plot->setAccessibleDescription(spokenOf(plan));
    column->addWidget(plot, 1);
    for (const QString& line : {trendOf(plan), leftOut(plan)}) {
        if (!line.isEmpty()) {
            QLabel* label = quietLabel(line, card);
            label->setWordWrap(true);
            column->addWidget(label);
        }
    }
    return card;
}

void RefilmPlots::setPlots(const std::vector<PlotPlan>& plans, const std::vector<CueSpan>& cues)
{
    for (QWidget* card : m_cards) {
        card->hide();
        card->deleteLater();
    }
    m_cards.clear();
    for (const PlotPlan& plan : plans) {
        m_cards.push_back(cardOf(plan, cues));
    }
    m_columns = 0;
    arrange();
}

void RefilmPlots::arrange()
{
    const int columns = std::max(1, (viewport()->width() + gridStep) / (narrowestCard + gridStep));
    if (columns == m_columns) {
        return;
    }
    for (int column = 0; column < std::max(m_columns, columns); ++column) {
        m_grid->setColumnStretch(column, column < columns ? 1 : 0);
    }
    m_columns = columns;
    for (int at = 0; at < count(); ++at) {
        QWidget* card = m_cards[static_cast<std::size_t>(at)];
        m_grid->addWidget(card, at / columns, at % columns);
        card->show();
    }
}

void RefilmPlots::resizeEvent(QResizeEvent* event)
{
    QScrollArea::resizeEvent(event);
    arrange();
}

} // namespace latemile::ui
