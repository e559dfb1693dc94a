// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/agreement_plot.hpp"

#include "core/measures/measure.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <qcustomplot.h>

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("AgreementPlot", text);
}

void dress(QCustomPlot& plot, const Tokens& tokens)
{
    QFont font = plot.font();
    font.setPixelSize(smallText);
    plot.setBackground(QBrush(tokens.card));
    for (QCPAxis* axis : {plot.xAxis, plot.yAxis}) {
        axis->setTickLabelFont(font);
        axis->setLabelFont(font);
        axis->setTickLabelColor(tokens.quiet);
        axis->setLabelColor(tokens.quiet);
        axis->setBasePen(QPen(tokens.line));
        axis->setTickPen(QPen(tokens.line));
        axis->setSubTicks(false);
        axis->ticker()->setTickCount(4);
        axis->grid()->setVisible(false);
    }
}

/// A line across the plot with its name and value at its right end.
void addLine(QCustomPlot& plot, double at, const QString& name, Qt::PenStyle style,
             const Tokens& tokens)
{
    auto* line = new QCPItemStraightLine(&plot);
    line->setPen(QPen(tokens.frame, style == Qt::SolidLine ? 1.5 : 1.0, style));
    line->point1->setCoords(0.0, at);
    line->point2->setCoords(1.0, at);
    auto* label = new QCPItemText(&plot);
    QFont font = plot.font();
    font.setPixelSize(smallText);
    label->setFont(font);
    label->setColor(tokens.quiet);
    label->setText(name);
    label->setPositionAlignment(Qt::AlignRight | Qt::AlignBottom);
    label->position->setTypeX(QCPItemPosition::ptAxisRectRatio);
    label->position->setTypeY(QCPItemPosition::ptPlotCoords);
    label->position->setCoords(0.99, at);
}

} // namespace

void drawAgreement(QCustomPlot& plot, const MeasureRepeat& repeat, const Tokens& tokens)
{
    plot.clearPlottables();
    plot.clearItems();
    dress(plot, tokens);
    const Measure& measure = *findMeasure(repeat.measure);
    QVector<double> means;
    QVector<double> differences;
    for (std::size_t i = 0; i < repeat.first.size(); ++i) {
        means.append((repeat.first[i] + repeat.second[i]) / 2.0);
        differences.append(repeat.first[i] - repeat.second[i]);
    }
    QCPGraph* points = plot.addGraph();
    points->setData(means, differences);
    points->setLineStyle(QCPGraph::lsNone);
    points->setScatterStyle(
        QCPScatterStyle(QCPScatterStyle::ssCircle, QPen(tokens.text, 1.5), QBrush(), 8));
    const auto& agreement = repeat.agreement;
    const auto named = [&](const QString& name, double value) {
        return QStringLiteral("%1 %2").arg(name, valueText(value, measure));
    };
    addLine(plot, agreement.bias.value, named(words("mean difference"), agreement.bias.value),
            Qt::SolidLine, tokens);
    addLine(plot, agreement.upperLimit.value,
            named(words("upper limit"), agreement.upperLimit.value), Qt::DashLine, tokens);
    addLine(plot, agreement.lowerLimit.value,
            named(words("lower limit"), agreement.lowerLimit.value), Qt::DashLine, tokens);
    plot.xAxis->setLabel(words("mean of both markings, %1").arg(unitText(measure.unit)));
    plot.yAxis->setLabel(words("first less second, %1").arg(unitText(measure.unit)));
    const auto [least, most] = std::minmax_element(means.begin(), means.end());
    const double air = std::max(0.1 * (*most - *least), measure.floor / 2.0);
    plot.xAxis->setRange(*least - air, *most + air);
    const auto [low, high] = std::minmax_element(differences.begin(), differences.end());
    const double bottom = std::min(*low, agreement.lowerLimit.value);
    const double top = std::max(*high, agreement.upperLimit.value);
    const double room = std::max(0.25 * (top - bottom), measure.floor / 4.0);
    plot.yAxis->setRange(bottom - room, top + room);
    plot.replot();
}

} // namespace latemile::ui
