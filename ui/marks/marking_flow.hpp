// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/bones.hpp"
#include "core/marks/rhythm.hpp"
#include "ui/document/selection.hpp"
#include "ui/marks/cell_doubt.hpp"
#include "ui/marks/cell_work.hpp"
#include "ui/marks/work_order.hpp"

#include <QObject>
#include <QPointer>

#include <optional>
#include <vector>

namespace latemile::ui {

class ClipDocument;

/// A cell that is to be marked, and the landmarks asked for in it.
struct AskedCell {
    StepInstant place;
    std::vector<Landmark> landmarks;
};

/// The order of the marking work: which cell is at hand, which landmark is asked for next, which
/// mark the keys act on, and where the next work waits. Edits go through the document's history.
class MarkingFlow final : public QObject {
    Q_OBJECT
public:
    explicit MarkingFlow(Selection& selection, QObject* parent = nullptr);

    void setClip(ClipDocument* clip);
    void setPlan(const AskedLandmarks& plan);
    /// From now on nothing but these cells, in this order, whatever the plan asks for.
    void askOnly(std::vector<AskedCell> cells);
    [[nodiscard]] bool asksOnly() const { return !m_only.empty(); }
    [[nodiscard]] std::size_t countOfOnly() const { return m_only.size(); }
    [[nodiscard]] const AskedLandmarks& plan() const { return m_plan; }
    [[nodiscard]] ClipDocument* clip() const { return m_clip; }
    /// The cell at hand.
    [[nodiscard]] const std::optional<StepInstant>& place() const { return m_selection.place(); }

    [[nodiscard]] std::optional<FrameNumber> frameOf(const StepInstant& place) const;
    [[nodiscard]] const std::vector<Landmark>& asked(const StepInstant& place) const;
    [[nodiscard]] CellWork work(const StepInstant& place) const;
    [[nodiscard]] CellDoubt doubt(const StepInstant& place) const;
    /// Where following was not sure.
    void setGaps(std::vector<FollowGap> gaps);
    [[nodiscard]] const std::vector<FollowGap>& gaps() const { return m_bounds.gaps; }
    /// Cells that ask for something and are not confirmed, in the order of work: as they come in
    /// the clip, but the least sure first where marks were followed or proposed.
    [[nodiscard]] std::vector<StepInstant> open() const;

    /// The landmark asked for on the frame of the cell at hand; none: nothing is.
    [[nodiscard]] std::optional<Landmark> pending() const;
    /// The same with its frame and side: both feet are asked for on any frame.
    [[nodiscard]] std::optional<MarkKey> pendingKey() const;
    /// Asks for ankle, heel and toe of both feet on the frame shown, until all have their answer or
    /// another frame is shown.
    void askFeet();
    [[nodiscard]] bool isAskingFeet() const { return m_feet.has_value(); }
    void letFeetGo();
    /// Contacts and toe-offs that do not go on as the others do.
    [[nodiscard]] const std::vector<RhythmFault>& rhythmFaults() const { return m_rhythmFaults; }
    /// Bones that are not as long as on the clip's other frames, on the frame given.
    [[nodiscard]] std::vector<OddBone> oddBonesOn(FrameNumber frame) const;
    [[nodiscard]] const std::vector<OddBone>& oddBones() const { return m_oddBones; }
    /// The mark that arrows, Delete and V act on.
    [[nodiscard]] const std::optional<MarkKey>& chosen() const { return m_chosen; }
    void choose(const std::optional<MarkKey>& key);
    /// Choose the next or the previous mark of the frame, in body order.
    void chooseNext(int way);
    /// Where the crosshair stands: under the pointer, or where the keys moved it.
    [[nodiscard]] PixelPoint cursor() const { return m_cursor; }
    void setCursor(PixelPoint at);

    /// The frame the picture shows. Another than the cell's own, a late one, takes no mark: it
    /// would be set by the sight of the wrong picture.
    void setShown(FrameNumber frame);
    [[nodiscard]] const std::optional<FrameNumber>& shown() const { return m_shown; }
    void placePending(PixelPoint at);
    void nudge(double du, double dv); ///< the chosen mark, or the crosshair
    void beginGesture() { ++m_gesture; }
    void moveChosen(PixelPoint to);
    void sayNotVisible();
    void removeChosen();
    /// The cell at hand: its marks and the events of its step. Refused where the events were found
    /// and are less sure than core/propose/row_bound.hpp says: then they are looked at first.
    void confirm();
    /// All cells of the step at hand and its contact and toe-off, but for cells with something to
    /// look at: a doubtful place or a bone that is not as long as elsewhere. Refused where a
    /// proposal or the events are less sure than a row may be (core/propose/row_bound.hpp).
    void confirmStep();
    void copyFromStepBefore();
    /// The first cell of a step that wants work.
    [[nodiscard]] std::optional<StepInstant> openIn(StepNumber step) const;
    /// The next (or previous, way -1) cell that wants work after the one at hand, round the clip.
    [[nodiscard]] std::optional<StepInstant> nextOpen(int way) const;

signals:
    void changed(); ///< the landmark asked for, the chosen mark or the crosshair
    /// The last landmark of the cell at hand has its answer and nothing contradicts it.
    void cellDone();
    /// The step was accepted but for this cell, which is to be looked at.
    void stepStaysAt(const latemile::ui::StepInstant& place);
    /// The row at hand was not accepted for this proposal; its cell is the place at hand now.
    void rowRefused(const latemile::MarkKey& key, double sePx, double boundPx);
    /// The cell or the row at hand was not accepted for the step's found contact and toe-off; the
    /// contact is the place at hand now.
    void eventsRefused(latemile::Seconds se, latemile::Seconds bound);
    /// All of both feet has its answer.
    void feetDone();

private:
    [[nodiscard]] const Step* stepOf(StepNumber number) const;
    [[nodiscard]] std::vector<StepInstant> cells() const; ///< that ask for something, in order
    [[nodiscard]] bool isOpen(const StepInstant& place) const;
    [[nodiscard]] std::optional<FrameNumber> frame() const;
    [[nodiscard]] std::optional<StepInstant> sameInstantBefore() const;
    [[nodiscard]] std::optional<PixelPoint> guessOf(Landmark landmark) const;
    void placeCursorNearGuess();
    void findOddBones();
    void findRhythmFaults();
    void findDoubtBound();
    void noteUrgency();
    [[nodiscard]] bool areEventsRefused(StepNumber step);
    [[nodiscard]] bool isRowRefused(StepNumber step);
    [[nodiscard]] bool wantsLook(const StepInstant& place) const;
    void tellIfDone();
    void letFeetGoWhenDone();
    void confirmCells(const std::vector<StepInstant>& places, const QString& name);
    void reset();

    Selection& m_selection;
    QPointer<ClipDocument> m_clip;
    AskedLandmarks m_plan{std::vector<std::string>{}};
    std::vector<AskedCell> m_only; ///< empty: the plan asks
    std::vector<OddBone> m_oddBones;
    std::vector<RhythmFault> m_rhythmFaults;
    DoubtBounds m_bounds;
    WorkOrder m_order;
    std::size_t m_stepsNoted{};
    std::optional<FrameNumber> m_feet; ///< where both feet are asked for
    std::optional<MarkKey> m_chosen;
    std::optional<FrameNumber> m_shown;
    PixelPoint m_cursor{};
    bool m_cursorFromPointer{};
    int m_gesture{};
};

} // namespace latemile::ui
