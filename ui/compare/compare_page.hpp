// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "ui/page/page_context.hpp"

#include <QStringList>
#include <QWidget>

#include <array>
#include <vector>

class QComboBox;
class QToolButton;

namespace latemile::ui {

class AthleteClips;
class ClipDocument;
class CompareLocks;
class CompareSide;
class ComparisonPanel;
class ComparisonTable;

/// Fresh against fatigued, or any two or three clips of the athlete: pictures at the same instant
/// or the same share of a step, and the comparison below. The first clip is what the others are set
/// against.
class ComparePage final : public QWidget {
    Q_OBJECT
public:
    explicit ComparePage(const PageContext& context, QWidget* parent = nullptr);

    [[nodiscard]] const ComparisonTable& comparison() const;
    [[nodiscard]] CompareSide& side(std::size_t at) const { return *m_sides.at(at); }
    [[nodiscard]] QString told() const;
    void setThirdShown(bool shown);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    QWidget* buildPictures();
    void offerClips();
    void letGoOf(ClipDocument* clip);
    void takeClips();
    void chooseAlikeSteps();
    void compareNow();
    [[nodiscard]] QString whyNothing() const;
    [[nodiscard]] std::vector<CompareSide*> used() const; ///< sides in sight
    [[nodiscard]] QStringList names() const;
    void showMoment();
    void tellGhosts();
    void followSight(const CompareSide& moved);

    PageContext m_context;
    AthleteClips* m_clips;
    std::array<CompareSide*, 3> m_sides;
    CompareLocks* m_locks;
    QToolButton* m_third{};
    QComboBox* m_measures{};
    ComparisonPanel* m_panel{};
    std::vector<const ClipDocument*> m_stepsChosenFor;
};

} // namespace latemile::ui
