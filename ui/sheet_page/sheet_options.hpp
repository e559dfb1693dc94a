// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QTabWidget>

namespace latemile::ui {

class CueChoice;
class MeasureChoice;
class PageOptions;
class SheetMaker;
class StillOptions;

/// What stands on the sheet and how it prints, in four leaves.
class SheetOptions final : public QTabWidget {
    Q_OBJECT
public:
    SheetOptions(const PageContext& context, const SheetMaker& maker, QWidget* parent = nullptr);
    [[nodiscard]] MeasureChoice& measures() const { return *m_measures; }
    [[nodiscard]] CueChoice& cues() const { return *m_cues; }
    [[nodiscard]] StillOptions& stills() const { return *m_stills; }
    [[nodiscard]] PageOptions& page() const { return *m_page; }

private:
    MeasureChoice* m_measures;
    CueChoice* m_cues;
    StillOptions* m_stills;
    PageOptions* m_page;
};

} // namespace latemile::ui
