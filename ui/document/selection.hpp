// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "ui/document/place_name.hpp"

#include <QObject>
#include <QPointer>

#include <optional>
#include <vector>

namespace latemile::ui {

class ClipDocument;

/// What the coach is looking at; the pages share it, nothing of it is undone or saved.
class Selection final : public QObject {
    Q_OBJECT
public:
    explicit Selection(QObject* parent = nullptr) : QObject(parent) {}

    [[nodiscard]] ClipDocument* clip() const { return m_clip; }
    [[nodiscard]] const std::optional<StepInstant>& place() const { return m_place; }
    void setClip(ClipDocument* clip);
    /// Where the clip at hand is none of these, the first of them is taken; none of none.
    void keepAmong(const std::vector<ClipDocument*>& clips);
    void goToNextOf(const std::vector<ClipDocument*>& clips); ///< after the last comes the first
    void setPlace(const std::optional<StepInstant>& place);
    /// The athlete's code stands for the name, on screen and on what is exported.
    [[nodiscard]] bool areNamesHidden() const { return m_namesHidden; }
    void setNamesHidden(bool hidden);

signals:
    void namesHiddenChanged(bool hidden);
    void clipChanged();
    void placeChanged();

private:
    QPointer<ClipDocument> m_clip;
    std::optional<StepInstant> m_place;
    bool m_namesHidden{};
};

} // namespace latemile::ui
