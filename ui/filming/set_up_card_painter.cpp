// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/whole_file.hpp"
#include "ui/filming/set_up_card.hpp"
#include "ui/filming/set_up_drawing.hpp"
#include "ui/sheet/sheet_type.hpp"

#include <QBuffer>
#include <QCoreApplication>
#include <QMarginsF>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr double pt = twipsPerPoint;
constexpr double millimetre = twipsPerInch / 25.4;
constexpr double margin = 10 * millimetre;

QString translated(const char* text)
{
    return QCoreApplication::translate("SetUpCard", text);
}

/// Sets line under line from the top of the card.
class CardSetter {
public:
    CardSetter(QPainter& painter, const SetUpCard& card) : m_painter(painter), m_card(card) {}

    double paint()
    {
        text(Role::Title, translated(QT_TRANSLATE_NOOP("SetUpCard", "Set-up for filming")));
        m_top += 2 * pt;
        blanks();
        const QRectF drawing(margin, m_top, m_width, 104 * pt);
        paintSetUpDrawing(m_painter, drawing, m_card, m_type);
        m_top = drawing.bottom() + 8 * pt;
        columns();
        m_top += 6 * pt;
        heading(translated(QT_TRANSLATE_NOOP("SetUpCard", "To tick off, in this order")));
        for (const QString& check : m_card.checks) {
            tick(check);
        }
        m_top += 4 * pt;
        text(Role::SmallBold, m_card.caution);
        return m_top + margin;
    }

private:
    void text(Role role, const QString& said, double left = margin)
    {
        const double width = margin + m_width - left;
        m_painter.setPen(m_inks.text);
        paintText(m_painter, QRectF(left, m_top, width, 1), said, m_type, role, Qt::AlignLeft);
        m_top += m_type.lineHeight(role) * lineCount(said, m_type.font(role), width);
    }

    void heading(const QString& said)
    {
        m_painter.fillRect(QRectF(margin, m_top, m_width, 0.6 * pt), m_inks.rule);
        m_top += 3 * pt;
        text(Role::SmallBold, said);
        m_top += 1 * pt;
    }

    /// To be written in by hand.
    void blanks()
    {
        const double high = m_type.lineHeight(Role::Small);
        double left = margin;
        for (const char* name :
             {QT_TRANSLATE_NOOP("SetUpCard", "Athlete"), QT_TRANSLATE_NOOP("SetUpCard", "Date"),
              QT_TRANSLATE_NOOP("SetUpCard", "Speed, incline")}) {
            const QString said = translated(name);
            const double wide = textWidth(said, m_type.font(Role::Small)) + 4 * pt;
            const double end = left + m_width / 3 - 8 * pt;
            m_painter.setPen(m_inks.quiet);
            paintText(m_painter, QRectF(left, m_top, wide, high), said, m_type, Role::Small,
                      Qt::AlignLeft);
            m_painter.fillRect(QRectF(left + wide, m_top + high, end - left - wide, 0.6 * pt),
                               m_inks.text);
            left += m_width / 3;
        }
        m_top += high + 8 * pt;
    }

    void columns()
    {
        const double from = m_top;
        const double wide = m_width / 2 - 6 * pt;
        column(translated(QT_TRANSLATE_NOOP("SetUpCard", "The camera")), m_card.camera, margin,
               wide);
        double lowest = m_top;
        m_top = from;
        const double second = margin + m_width / 2 + 6 * pt;
        column(translated(QT_TRANSLATE_NOOP("SetUpCard", "What it gives")), m_card.picture, second,
               wide);
        lowest = std::max(lowest, m_top);
        m_top = lowest + 4 * pt;
        errors();
    }

    void column(const QString& name, const std::vector<NamedNumber>& numbers, double left,
                double width)
    {
        m_painter.fillRect(QRectF(left, m_top, width, 0.6 * pt), m_inks.rule);
        m_top += 3 * pt;
        const double high = m_type.lineHeight(Role::Small);
        m_painter.setPen(m_inks.text);
        paintText(m_painter, QRectF(left, m_top, width, high), name, m_type, Role::SmallBold,
                  Qt::AlignLeft);
        m_top += high;
        for (const NamedNumber& row : numbers) {
            pair(row, left, width);
            m_top += high;
        }
    }

    void pair(const NamedNumber& row, double left, double width)
    {
        const double high = m_type.lineHeight(Role::Small);
        m_painter.setPen(m_inks.quiet);
        paintText(m_painter, QRectF(left, m_top, width, high), row.name, m_type, Role::Small,
                  Qt::AlignLeft);
        m_painter.setPen(m_inks.text);
        paintText(m_painter, QRectF(left, m_top, width, high), row.number, m_type, Role::Small,
                  Qt::AlignRight);
    }

    /// In two columns under a heading of their own.
    void errors()
    {
        if (m_card.errors.empty()) {
            return;
        }
        heading(
            translated(QT_TRANSLATE_NOOP("SetUpCard", "One step, marked once, will be read to")));
        const double wide = m_width / 2 - 6 * pt;
        const double high = m_type.lineHeight(Role::Small);
        const std::size_t rows = (m_card.errors.size() + 1) / 2;
        const double from = m_top;
        for (std::size_t i = 0; i < m_card.errors.size(); ++i) {
            m_top = from + high * static_cast<double>(i % rows);
            pair(m_card.errors[i], i < rows ? margin : margin + m_width / 2 + 6 * pt, wide);
        }
        m_top = from + high * static_cast<double>(rows);
    }

    void tick(const QString& check)
    {
        const double high = m_type.lineHeight(Role::Small);
        m_painter.setPen(QPen(m_inks.text, 0.7 * pt));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawRect(QRectF(margin, m_top + (high - 6.5 * pt) / 2, 6.5 * pt, 6.5 * pt));
        text(Role::Small, check, margin + 11 * pt);
        m_top += 1.5 * pt;
    }

    QPainter& m_painter;
    const SetUpCard& m_card;
    const SheetInks m_inks{sheetInks({})};
    const SheetType m_type{SheetStyle{}, 0.92};
    const double m_width{cardSize().width() - 2 * margin};
    double m_top{margin};
};

Error couldNotDraw()
{
    return {
        Error::Kind::Unsupported, "The set-up card could not be drawn; nothing was written.", {}};
}

} // namespace

QSizeF cardSize()
{
    return {148 * millimetre, 210 * millimetre};
}

double paintSetUpCard(QPainter& painter, const QRectF& page, const SetUpCard& card)
{
    const QSizeF paper = cardSize();
    const double scale = std::min(page.width() / paper.width(), page.height() / paper.height());
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.translate(page.left() + (page.width() - scale * paper.width()) / 2.0,
                      page.top() + (page.height() - scale * paper.height()) / 2.0);
    painter.scale(scale, scale);
    painter.fillRect(QRectF(QPointF(), paper), Qt::white);
    const double bottom = CardSetter(painter, card).paint();
    painter.restore();
    return bottom / paper.height();
}

Outcome<void> writeSetUpCard(const SetUpCard& card, CardPaper paper,
                             const std::filesystem::path& file)
{
    // Into memory first: the PDF writer itself tells nothing of a full disk.
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(static_cast<int>(twipsPerInch));
        writer.setPageSize(QPageSize(paper == CardPaper::A5 ? QPageSize::A5 : QPageSize::A4));
        writer.setPageMargins(QMarginsF());
        writer.setTitle(translated(QT_TRANSLATE_NOOP("SetUpCard", "Set-up for filming")));
        writer.setCreator(QStringLiteral("Latemile"));
        QPainter painter;
        if (!painter.begin(&writer)) {
            return tl::unexpected<Error>(couldNotDraw());
        }
        paintSetUpCard(painter, QRectF(0, 0, writer.width(), writer.height()), card);
        if (!painter.end()) {
            return tl::unexpected<Error>(couldNotDraw());
        }
    }
    return replaceFile(file,
                       std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
}

} // namespace latemile::ui
