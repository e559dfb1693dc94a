// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_layout.hpp"

#include "ui/sheet/sheet_blocks.hpp"

#include <algorithm>
#include <array>
#include <optional>

namespace latemile::ui {
namespace {

constexpr double margin = 40.0 * twipsPerPoint; // 14 mm: inside what home printers can print

/// Lays out a whole page with one size of type and one allowance.
class PagePlan {
public:
    PagePlan(const SheetContent& content, const SheetStyle& style, double scale,
             const Allowance& allowance)
        : m_content(content), m_style(style), m_type(style, scale), m_allowance(allowance)
    {
        m_layout.page = paperSize(style.paper);
        m_layout.printable =
            QRectF(QPointF(), m_layout.page).adjusted(margin, margin, -margin, -0.75 * margin);
        m_layout.scale = scale;
    }

    /// The page, or nothing where it does not fit.
    [[nodiscard]] std::optional<SheetLayout> made()
    {
        const QRectF area = m_layout.printable;
        const Slot page{area.left(), area.top(), area.width()};
        const double footer = heightOf([&](LayoutPen& pen) {
            return placeFooter(pen, m_content, m_style, {area.left(), 0.0, area.width()});
        });
        const double below = heightOf([&](LayoutPen& pen) {
            return placeBelow(pen, {area.left(), 0.0, area.width()});
        });
        LayoutPen pen(m_layout, m_type);
        const double top = placeHeader(pen, m_content, m_style, page) + gap;
        const double room = area.bottom() - footer - gap - below - top;
        const auto middle =
            m_style.largePrint ? placeRow(pen, top, room) : placePair(pen, top, room);
        if (!middle) {
            return std::nullopt;
        }
        // What is left over is spread between the parts; more than a little of it goes to the foot.
        const double spare = std::clamp((room - (*middle - top)) / 3.0, 0.0, gap);
        placeBelow(pen, {area.left(), *middle + spare, area.width()});
        placeFooter(pen, m_content, m_style, {area.left(), area.bottom() - footer, area.width()});
        m_layout.footer = {area.left(), area.bottom() - footer, area.width(), footer};
        return m_layout;
    }

private:
    template <class Place>
    [[nodiscard]] double heightOf(Place place) const
    {
        SheetLayout spare;
        LayoutPen pen(spare, m_type);
        return place(pen);
    }

    /// Table and cautions; in large print the cues too, which need the page's width.
    double placeBelow(LayoutPen& pen, Slot slot) const
    {
        double y = placeTable(pen, m_content, {slot.left, slot.top + 1.5 * gap, slot.width});
        if (m_style.largePrint) {
            y = placeCues(pen, m_content, {slot.left, y + gap, slot.width}, m_allowance, true);
        }
        return placeCautions(pen, m_content, {slot.left, y + 1.5 * gap, slot.width}, m_allowance);
    }

    double placeColumn(LayoutPen& pen, Slot slot) const
    {
        const double y = placeFindings(pen, m_content, slot);
        return placeCues(pen, m_content, {slot.left, y + gap, slot.width}, m_allowance, false);
    }

    /// Stills on the left as large as they can be, findings and cues on the right.
    std::optional<double> placePair(LayoutPen& pen, double top, double room) const
    {
        const QRectF area = m_layout.printable;
        constexpr double between = 2.0 * gap;
        for (double share = 0.60; share >= 0.40; share -= 0.01) {
            const Slot stills{area.left(), top, share * area.width()};
            const Slot column{area.left() + stills.width + between, top,
                              area.width() - stills.width - between};
            const double left = heightOf(
                [&](LayoutPen& spare) { return placeStills(spare, m_content, stills, false); });
            const double right =
                heightOf([&](LayoutPen& spare) { return placeColumn(spare, column); });
            if (std::max(left, right) - top <= room) {
                placeStills(pen, m_content, stills, false);
                placeColumn(pen, column);
                return std::max(left, right);
            }
        }
        return std::nullopt;
    }

    /// Large print: four stills in a row, then what changed in words.
    std::optional<double> placeRow(LayoutPen& pen, double top, double room) const
    {
        const QRectF area = m_layout.printable;
        for (double share = 1.0; share >= 0.72; share -= 0.02) {
            const Slot stills{area.left() + (1.0 - share) / 2.0 * area.width(), top,
                              share * area.width()};
            const auto place = [&](LayoutPen& target) {
                const double y = placeStills(target, m_content, stills, true);
                return m_allowance.findings
                           ? placeFindings(target, m_content, {area.left(), y + gap, area.width()})
                           : y;
            };
            if (heightOf(place) - top <= room) {
                return place(pen);
            }
        }
        return std::nullopt;
    }

    const SheetContent& m_content;
    const SheetStyle& m_style;
    SheetType m_type;
    Allowance m_allowance;
    SheetLayout m_layout;
};

} // namespace

SheetLayout layOutSheet(const SheetContent& content, const SheetStyle& style)
{
    // First smaller type, then less text: in that order a reader loses least. The findings go
    // before the drills are cut, since the table tells them too.
    static constexpr std::array allowances{Allowance{true, 6, 0},  Allowance{false, 6, 0},
                                           Allowance{true, 4, 4},  Allowance{false, 3, 3},
                                           Allowance{false, 2, 2}, Allowance{false, 1, 1}};
    for (const Allowance& allowance : allowances) {
        for (double scale = 1.0; scale >= 0.8; scale -= 0.04) {
            if (auto layout = PagePlan(content, style, scale, allowance).made()) {
                return *std::move(layout);
            }
        }
    }
    for (double scale = 0.76; scale > 0.2; scale *= 0.92) {
        if (auto layout = PagePlan(content, style, scale, allowances.back()).made()) {
            return *std::move(layout);
        }
    }
    SheetLayout empty;
    empty.page = paperSize(style.paper);
    return empty;
}

} // namespace latemile::ui
