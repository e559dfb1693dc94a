// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/steps.hpp"
#include "core/measures/mark_tracks.hpp"
#include "core/measures/peak_fit.hpp"
#include "core/measures/readings.hpp"
#include "core/scene/plane.hpp"

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace latemile {

/// A marked clip made ready for reading: its plane fixed, its steps derived, its marks by frame.
struct PreparedClip {
    ClipConditions conditions;
    FrameIndex index;
    Seconds frameInterval{}; ///< median
    Plane plane;
    MarkTracks tracks;
    std::vector<Step> steps;
    AthleteFacts athlete;

    /// The foot nearest the camera; nothing in rear and front view.
    [[nodiscard]] std::optional<Foot> nearFoot() const;
};
Outcome<PreparedClip> prepare(const MarkedClip& clip);

/// One event of a clip.
struct EventKey {
    std::size_t step{}; ///< index into the steps
    bool toeOff{};      ///< else contact
    auto operator<=>(const EventKey&) const = default;
};

/// What is shifted to see how far a value moves; at most one member is set.
struct Disturbance {
    std::optional<MarkKey> mark;
    PixelPoint markBy;
    std::optional<EventKey> event;
    double eventBy{};       ///< seconds
    double allContactsBy{}; ///< seconds
    double allToeOffsBy{};  ///< seconds
    SceneShift scene;
    int framesLater{}; ///< instants read this many frames later
};

/// What a formula may ask for at one step. A question that cannot be answered gives a harmless
/// value and is remembered with its reason, so formulas stay one-liners; the value of such a
/// formula is dropped. Also remembers what was used, for the error and for showing where a number
/// came from.
class Evidence {
public:
    Evidence(const PreparedClip& clip, std::size_t step, const Disturbance& disturbance = {});

    /// A near-side landmark at an instant of this step, in the plane, cm. Contact and toe-off are
    /// read at the event itself where the frames on both sides of it are marked, else on the frame
    /// the coach marked.
    PlanePoint at(Instant instant, Landmark landmark)
    {
        return at(instant, landmark, BodySide::Near);
    }
    PlanePoint at(Instant instant, Landmark landmark, BodySide side);
    /// The ankle of this step's foot, and of the next step's, at their own contacts.
    PlanePoint ownAnkleAtContact();
    PlanePoint nextAnkleAtContact();

    /// Times of events, seconds.
    double contact();
    double toeOff();
    double nextContact();
    double strideEnd();
    /// The longest run of alternating steps of the clip: its first and last contact and the steps
    /// between.
    struct Run {
        double from{};
        double to{};
        int steps{};
    };
    Run longestRun();

    /// A value on one frame, from near-side landmarks of that frame.
    using OnFrame = std::function<double(const std::function<PlanePoint(Landmark)>&)>;
    /// Extreme of a value between two times: needs the landmarks on (nearly) every frame there.
    double extreme(double from, double to, Extreme kind, const std::vector<Landmark>& landmarks,
                   const OnFrame& value);

    /// m/s; missing over ground.
    double beltSpeed();
    [[nodiscard]] bool hasBelt() const { return m_clip.conditions.scene.beltSpeed.has_value(); }

    /// Why the value must be dropped; nothing while every question was answered.
    [[nodiscard]] const std::optional<std::string>& missing() const { return m_missing; }
    void setMissing(std::string reason);

    [[nodiscard]] const std::set<MarkKey>& marksUsed() const { return m_marksUsed; }
    [[nodiscard]] const std::set<EventKey>& eventsUsed() const { return m_eventsUsed; }
    /// Instants read on a frame, not at their exact time: contact or toe-off without the frame
    /// before it, and mid-stance.
    [[nodiscard]] bool wasReadLate() const { return m_readLate; }
    [[nodiscard]] bool wasReadMidway() const { return m_readMidway; }

private:
    [[nodiscard]] const Step& step() const { return m_clip.steps[m_step]; }
    PlanePoint atEvent(std::size_t step, bool toeOff, Landmark landmark, BodySide side);
    PlanePoint onNearestFrame(Instant instant, Landmark landmark, BodySide side);
    std::optional<PlanePoint> pointOn(const MarkKey& key, bool remember = true);
    PlanePoint notMarked(Landmark landmark, BodySide side, Instant instant, std::size_t step);
    double eventTime(const EventKey& key, Seconds undisturbed);
    std::size_t nextStepOf(std::size_t step) const { return step + 1; }

    const PreparedClip& m_clip;
    std::size_t m_step;
    Disturbance m_disturbance;
    std::optional<std::string> m_missing;
    std::set<MarkKey> m_marksUsed;
    std::set<EventKey> m_eventsUsed;
    bool m_readLate{};
    bool m_readMidway{};
};

} // namespace latemile
