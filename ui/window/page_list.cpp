// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/page_list.hpp"

#include "ui/compare/compare_page.hpp"
#include "ui/filming/filming_page.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/readings/readings_page.hpp"
#include "ui/refilms/refilms_page.hpp"
#include "ui/sheet_page/sheet_page.hpp"

#include <QCoreApplication>

#include <array>

namespace latemile::ui {
namespace {

template <class Page>
QWidget* make(const PageContext& context, QWidget* parent)
{
    return new Page(context, parent);
}

constexpr std::array pages{
    PageEntry{"filming", QT_TRANSLATE_NOOP("Pages", "Filming"), &make<FilmingPage>},
    PageEntry{"marks", QT_TRANSLATE_NOOP("Pages", "Marks"), &make<MarksPage>},
    PageEntry{"readings", QT_TRANSLATE_NOOP("Pages", "Readings"), &make<ReadingsPage>},
    PageEntry{"compare", QT_TRANSLATE_NOOP("Pages", "Fresh | Fatigued"), &make<ComparePage>},
    PageEntry{"sheet", QT_TRANSLATE_NOOP("Pages", "Sheet"), &make<SheetPage>},
    PageEntry{"refilms", QT_TRANSLATE_NOOP("Pages", "Re-films"), &make<RefilmsPage>},
};

} // namespace

std::span<const PageEntry> pageList()
{
    return pages;
}

QString nameOf(const PageEntry& entry)
{
    return QCoreApplication::translate("Pages", entry.name);
}

} // namespace latemile::ui
