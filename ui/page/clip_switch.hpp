// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"
#include "ui/page/page_context.hpp"

#include <QString>
#include <QWidget>

class QButtonGroup;
class QHBoxLayout;

namespace latemile::ui {

class ClipDocument;

/// A button a clip of the session; the pressed one is the clip all pages look at.
class ClipSwitch final : public QWidget {
    Q_OBJECT
public:
    explicit ClipSwitch(const PageContext& context, QWidget* parent = nullptr);

private:
    void rebuild();
    void tellChosen();

    PageContext m_context;
    QHBoxLayout* m_row;
    QButtonGroup* m_group{};
};

/// "Fresh, minute 6, left side".
[[nodiscard]] QString clipName(const ClipDocument& clip);
[[nodiscard]] QString clipName(const SessionClip& clip);

} // namespace latemile::ui
