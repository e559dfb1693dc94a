// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/sheet_options.hpp"

#include "ui/sheet_page/cue_choice.hpp"
#include "ui/sheet_page/measure_choice.hpp"
#include "ui/sheet_page/page_options.hpp"
#include "ui/sheet_page/still_options.hpp"

#include <QTabBar>

namespace latemile::ui {

SheetOptions::SheetOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent)
    : QTabWidget(parent), m_measures(new MeasureChoice(context, maker, this)),
      m_cues(new CueChoice(context, maker, this)), m_stills(new StillOptions(context, maker, this)),
      m_page(new PageOptions(context, this))
{
    setDocumentMode(true);
    setAccessibleName(tr("Parts of the sheet"));
    tabBar()->setAccessibleName(tr("Parts of the sheet"));
    tabBar()->setExpanding(true);
    addTab(m_measures, tr("&Measures"));
    addTab(m_cues, tr("&Cues"));
    addTab(m_stills, tr("&Stills"));
    addTab(m_page, tr("P&age"));
}

} // namespace latemile::ui
