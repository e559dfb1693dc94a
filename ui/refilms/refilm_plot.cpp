// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/refilms/refilm_plot.hpp"

#include "core/measures/measure.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <qcustomplot.h>

#include <QDate>
#include <QFontMetricsF>
#include <QLocale>

#include <algorithm>
#include <cmath>

namespace latemile::ui {
namespace {

constexpr double dodge = 0.012; ///< of the whole span: keeps the two bars of a day apart
constexpr double margin = 0.06;
constexpr int nameFlags = static_cast<int>(Qt::AlignHCenter) | static_cast<int>(Qt::AlignTop) |
                          static_cast<int>(Qt::TextWordWrap);
constexpr double nameHeight = 34.0; ///< of a cue's name at the top of its band: two lines

double dayOf(const std::string& date)
{
    return static_cast<double>(QDate::fromString(fromUtf8(date), Qt::ISODate).toJulianDay());
}

/// The days and values that all parts of one plot share.
struct Extent {
    double firstDay{};
    double lastDay{};
    double low{};
    double high{};

    [[nodiscard]] double span() const { return std::max(lastDay - firstDay, 28.0); }
};

bool isDrawn(const RefilmPoint& point)
{
    return point.mean && point.whyNot.empty();
}

Extent extentOf(const Measure& measure, const Course* fresh, const Course* fatigued)
{
    Extent extent{1e12, -1e12, 1e12, -1e12};
    for (const Course* course : {fresh, fatigued}) {
        if (course == nullptr) {
            continue;
        }
        for (const RefilmPoint& point : course->points) {
            extent.firstDay = std::min(extent.firstDay, dayOf(point.date));
            extent.lastDay = std::max(extent.lastDay, dayOf(point.date));
            if (isDrawn(point)) {
                const double half = point.halfWidth.value_or(0.0);
                extent.low = std::min(extent.low, *point.mean - half);
                extent.high = std::max(extent.high, *point.mean + half);
            }
        }
    }
    // A change too small for a word on a sheet must not look large.
    const double lacks = std::max(0.0, 4.0 * measure.floor - (extent.high - extent.low));
    const double air = 0.1 * (extent.high - extent.low + lacks) + lacks / 2.0;
    extent.low -= air;
    // Room for the names of the cues, whatever the plot's height.
    extent.high += air + 0.45 * (extent.high - extent.low);
    return extent;
}

void dressAxes(QCustomPlot& plot, const Extent& extent, const Tokens& tokens)
{
    QFont font = plot.font();
    font.setPixelSize(smallText);
    plot.setBackground(QBrush(tokens.card));
    for (QCPAxis* axis : {plot.xAxis, plot.yAxis}) {
        axis->setTickLabelFont(font);
        axis->setTickLabelColor(tokens.quiet);
        axis->setBasePen(QPen(tokens.line));
        axis->setTickPen(QPen(tokens.line));
        axis->setSubTicks(false);
    }
    plot.xAxis->grid()->setVisible(false);
    plot.yAxis->grid()->setPen(QPen(tokens.line, 1, Qt::SolidLine));
    plot.yAxis->grid()->setZeroLinePen(QPen(tokens.frame));
    plot.yAxis->ticker()->setTickCount(3);
    plot.xAxis->setRange(extent.firstDay - margin * extent.span(),
                         extent.lastDay + margin * extent.span());
    plot.yAxis->setRange(extent.low, extent.high);
}

void nameDays(QCustomPlot& plot, const Course& course)
{
    const QSharedPointer<QCPAxisTickerText> ticker(new QCPAxisTickerText);
    for (const RefilmPoint& point : course.points) {
        const QDate date = QDate::fromString(fromUtf8(point.date), Qt::ISODate);
        ticker->addTick(dayOf(point.date), QLocale().toString(date, QStringLiteral("d MMM")));
    }
    plot.xAxis->setTicker(ticker);
}

void drawCourse(QCustomPlot& plot, const Course& course, double shift, const QPen& pen,
                const QBrush& fill)
{
    QVector<double> days;
    QVector<double> means;
    QVector<double> halves;
    for (const RefilmPoint& point : course.points) {
        if (isDrawn(point)) {
            days.append(dayOf(point.date) + shift);
            means.append(*point.mean);
            halves.append(point.halfWidth.value_or(0.0));
        }
    }
    QCPGraph* graph = plot.addGraph();
    graph->setData(days, means, true);
    graph->setPen(pen);
    const QPen outline(pen.color(), 2);
    graph->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssCircle, outline, fill, 9));
    auto* bars = new QCPErrorBars(plot.xAxis, plot.yAxis);
    bars->setDataPlottable(graph);
    bars->setData(halves);
    bars->setPen(QPen(pen.color(), 1.5));
    bars->setWhiskerWidth(7);
    bars->setSymbolGap(10);
}

/// The name of a cue at the top of its days, as far as there is room; above the grid, whose lines
/// would run through it.
class CueName final : public QCPAbstractItem {
public:
    CueName(QCustomPlot& plot, const CueSpan& cue, QColor ground, QColor ink)
        : QCPAbstractItem(&plot), m_ground(std::move(ground)), m_ink(std::move(ink)),
          m_name(cue.name), m_from(dayOf(cue.from)), m_to(dayOf(cue.to))
    {
        setLayer(QStringLiteral("axes"));
    }

    double selectTest(const QPointF&, bool, QVariant*) const override { return -1.0; }

private:
    void draw(QCPPainter* painter) override
    {
        const double left = parentPlot()->xAxis->coordToPixel(m_from) + 4;
        const double width = parentPlot()->xAxis->coordToPixel(m_to) - 4 - left;
        const QRectF place(left, parentPlot()->axisRect()->rect().top() + 1, width, nameHeight);
        QFont font = parentPlot()->font();
        font.setPixelSize(smallText);
        painter->setFont(font);
        painter->fillRect(place, m_ground);
        painter->setPen(m_ink);
        painter->drawText(place, nameFlags, fittedName(QFontMetricsF(font), width));
    }

    /// In two lines at most, the rest as an ellipsis: the whole name stands above the plots.
    [[nodiscard]] QString fittedName(const QFontMetricsF& metrics, double width) const
    {
        const QRectF room(0, 0, width, 1000);
        QString name = m_name;
        for (qsizetype kept = m_name.size(); kept > 3; --kept) {
            if (metrics.boundingRect(room, nameFlags, name).height() <= nameHeight) {
                break;
            }
            name = m_name.left(kept - 1).trimmed() + QChar(0x2026);
        }
        return name;
    }

    QColor m_ground;
    QColor m_ink;
    QString m_name;
    double m_from;
    double m_to;
};

void drawCues(QCustomPlot& plot, const std::vector<CueSpan>& cues, const Tokens& tokens)
{
    bool shaded = true;
    for (const CueSpan& cue : cues) {
        if (shaded) {
            auto* band = new QCPItemRect(&plot);
            band->topLeft->setTypeY(QCPItemPosition::ptAxisRectRatio);
            band->bottomRight->setTypeY(QCPItemPosition::ptAxisRectRatio);
            band->topLeft->setCoords(dayOf(cue.from), 0.0);
            band->bottomRight->setCoords(dayOf(cue.to), 1.0);
            band->setPen(Qt::NoPen);
            band->setBrush(tokens.paper);
            band->setLayer(QStringLiteral("background"));
        }
        // The plot owns its items.
        new CueName(plot, cue, shaded ? tokens.paper : tokens.card, tokens.quiet);
        shaded = !shaded;
    }
}

} // namespace

QWidget* refilmPlot(const Measure& measure, const Course* fresh, const Course* fatigued,
                    const std::vector<CueSpan>& cues, const Tokens& tokens, QWidget* parent)
{
    auto* plot = new QCustomPlot(parent);
    const Extent extent = extentOf(measure, fresh, fatigued);
    dressAxes(*plot, extent, tokens);
    if (const Course* any = fatigued != nullptr ? fatigued : fresh) {
        nameDays(*plot, *any);
    }
    drawCues(*plot, cues, tokens);
    const double shift = dodge * extent.span();
    if (fresh != nullptr) {
        drawCourse(*plot, *fresh, -shift, QPen(tokens.fresh, 2), tokens.fresh);
    }
    if (fatigued != nullptr) {
        drawCourse(*plot, *fatigued, shift, QPen(tokens.fatigued, 2, Qt::DashLine), tokens.card);
    }
    plot->setMinimumHeight(20 * gridStep);
    plot->setFocusPolicy(Qt::NoFocus);
    plot->setAttribute(Qt::WA_TransparentForMouseEvents);
    return plot;
}

} // namespace latemile::ui
