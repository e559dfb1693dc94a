// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/few_landmarks.hpp"
#include "core/measures/peak_fit.hpp"
#include "core/measures/prepared_clip.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace latemile {

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
    double eventBy{}; ///< seconds
    double trunkBy{}; ///< share of the trunk's mean length
    double beltBy{};  ///< share of the belt speed
    SceneShift scene;
    int framesLater{};               ///< mid-stance and mid-swing read this many frames later
    std::optional<std::size_t> path; ///< which of the extremes and means asked for, in their order
    double pathBy{};                 ///< its value higher by so much
};

/// How far the value of an extreme or a mean moves with a mark it was read from.
struct PathSlope {
    MarkKey mark;
    std::size_t path{}; ///< as in Disturbance
    PixelPoint perPixel;
};

/// How far from mid-stance frames help to tell how fast a value runs on there, seconds: of two
/// frames next to each other the speed would be mostly noise (a choice of this project).
inline constexpr double velocityHalfWidth = 0.017;
/// Likewise to one side of an event, where joints turn fastest for less than this (a choice too).
inline constexpr double velocityWidth = 0.0125;

/// The two frames between which a mark's speed beside an event is taken; `first` is the event's
/// first frame.
struct SpeedFrames {
    FrameNumber from;
    FrameNumber to;
    double seconds{}; ///< between them
};
/// With the frames after the event or with those before it, as far as they are marked; nothing
/// where no two are.
[[nodiscard]] std::optional<SpeedFrames> speedFrames(const PreparedClip& clip, FrameNumber first,
                                                     bool after, BodySide side, Landmark landmark);

/// What a formula may ask for at one step. A question that cannot be answered gives a harmless
/// value and is remembered with its reason, so formulas stay one-liners; the value of such a
/// formula is dropped. Also remembers what was used, for the error and for showing where a number
/// came from.
class Evidence {
public:
    /// Slopes of paths cost a little: kept for who asks for an error.
    enum class PathSlopes { Leave, Keep };
    Evidence(const PreparedClip& clip, std::size_t step, PathSlopes slopes = PathSlopes::Leave)
        : m_clip(clip), m_step(step), m_pathSlopesToo(slopes)
    {
    }
    /// The same questions with something shifted, for the slopes of an error. Keeps the frames that
    /// extremes and nearest times were found on, so that a slope never jumps; remembers nothing.
    /// `this` must outlive it.
    [[nodiscard]] Evidence shifted(const Disturbance& disturbance) const;

    /// A near-side landmark at an instant of this step, in the plane, cm. Contact and toe-off are
    /// read at the event itself where the frames on both sides of it are marked, else on the frame
    /// the coach marked.
    PlanePoint at(Instant instant, Landmark landmark)
    {
        return at(instant, landmark, BodySide::Near);
    }
    PlanePoint at(Instant instant, Landmark landmark, BodySide side);
    /// The same of the next step: where the other foot stands.
    PlanePoint atNextStep(Instant instant, Landmark landmark, BodySide side);
    /// The ankle of this step's foot, and of the next step's, at their own contacts; side view.
    PlanePoint ownAnkleAtContact();
    PlanePoint nextAnkleAtContact();
    /// Height of a near landmark over the ground line under it at an instant, cm.
    double heightOverGround(Instant instant, Landmark landmark);
    [[nodiscard]] Foot foot() const { return step().foot; }
    [[nodiscard]] BodySide
    ownSide() const; ///< Left or Right, of this step's foot; rear and front view

    /// Times of events, seconds.
    double contact();
    double toeOff();
    double nextContact();
    double nextToeOff(); ///< of the other foot
    double strideEnd();
    /// The longest run of alternating steps of the clip: its first and last contact and the steps
    /// between.
    struct Run {
        double from{};
        double to{};
        int steps{};
    };
    Run longestRun();
    /// Means over all steps of the clip that have them, seconds.
    struct MeanStep {
        double contact{};
        double flight{};
    };
    MeanStep meanStep();

    /// Points of one frame.
    using Figure = std::function<PlanePoint(Landmark)>;
    using OnFrame = std::function<double(const Figure&)>;
    struct Search {
        double from{}; ///< s
        double to{};
        Extreme kind{};
        FewLandmarks landmarks; ///< the value needs, all of one side
        OnFrame value;
        BodySide side{BodySide::Near};
    };
    /// Extreme of a value between two times: needs the landmarks on (nearly) every frame there.
    Sample extreme(const Search& search);
    /// The value on the frame nearest to a time.
    double near(double time, const FewLandmarks& landmarks, const OnFrame& value);
    /// Mean of a value of both body sides over the marked frames of a stretch; needs one at least.
    using OnBothSides = std::function<double(PlanePoint left, PlanePoint right)>;
    double meanOver(double from, double to, Landmark landmark, const OnBothSides& value);
    /// Farthest the wrist on this step's side goes past the middle of the shoulders, + beyond it,
    /// cm; over the frames of a stretch where wrist and both shoulders are marked (a wrist hidden
    /// by the trunk is not).
    double farthestAcross(double from, double to);

    /// Missing where the ground moves through the picture and no belt is stated.
    void needStillGround();
    /// m/s; missing over ground.
    double beltSpeed();
    [[nodiscard]] bool hasBelt() const { return m_clip.conditions.scene.beltSpeed.has_value(); }
    double legLength(); ///< cm
    double mass();      ///< kg
    double trunk();     ///< cm, mean of the clip
    double inclinePercent() const { return m_clip.conditions.inclinePercent.value_or(0.0); }
    /// The near foot while flat; its error beyond the value's own marks is ownVariance().
    double flatFootDegrees();
    PlanePoint flatHeel();

    /// Why the value must be dropped; nothing while every question was answered.
    [[nodiscard]] const std::optional<std::string>& missing() const { return m_missing; }
    void setMissing(std::string reason);

    /// In order, each once.
    [[nodiscard]] const std::vector<MarkKey>& marksUsed() const { return m_marksUsed; }
    [[nodiscard]] const std::vector<EventKey>& eventsUsed() const { return m_eventsUsed; }
    /// What extremes and means hang on, and how many of them were asked for.
    [[nodiscard]] const std::vector<PathSlope>& pathSlopes() const { return m_pathSlopes; }
    [[nodiscard]] std::size_t pathsAsked() const { return m_peaks.size(); }
    /// The value hangs on this mark by more than the extremes and means it was used for.
    [[nodiscard]] bool wasReadBesidePaths(const MarkKey& mark) const;
    /// Instants read on a frame, not at their exact time: contact or toe-off without the frame
    /// before it, and mid-stance.
    [[nodiscard]] bool wasReadLate() const { return m_readLate; }
    [[nodiscard]] bool wasReadMidway() const { return m_readMidway; }
    [[nodiscard]] bool usedTrunk() const { return m_usedTrunk; }
    [[nodiscard]] bool usedBelt() const { return m_usedBelt; }
    /// Variance of the flat foot beyond the marks the value uses itself, in its unit squared.
    [[nodiscard]] double ownVariance() const;

private:
    [[nodiscard]] const Step& step() const { return m_clip.steps[m_step]; }
    PlanePoint atEvent(std::size_t step, bool toeOff, Landmark landmark, BodySide side);
    PlanePoint ankleAtContact(std::size_t step, BodySide side);
    /// cm a second around an event whose first frame is `first`, with the frames after it or with
    /// those before it, as far as they are marked.
    PlanePoint velocityBeside(FrameNumber first, bool after, BodySide side, Landmark landmark);
    PlanePoint onNearestFrame(std::size_t step, Instant instant, Landmark landmark, BodySide side);
    /// An extreme (or a mean) as it was found: the samples it is made of.
    struct FoundPeak {
        std::vector<FrameNumber> frames;
        std::vector<Sample> samples;
        Sample vertex;
        std::vector<double> weights; ///< how far the vertex rises a unit of each sample
    };
    /// Which landmark is missing on which frame of a stretch, in words.
    [[nodiscard]] std::string firstHole(const Search& search) const;
    /// A value made of weighted frames, with the disturbance.
    using ValueOn = std::function<double(FrameNumber)>;
    [[nodiscard]] Sample shiftedPath(bool markConcerns, const ValueOn& valueOn);
    /// The part of `all` that a peak was fitted to.
    [[nodiscard]] static FoundPeak partOf(const FoundPeak& all, const Peak& peak);
    /// Keeps what was found, and that these points were used on all its frames.
    Sample keep(FoundPeak found, std::span<const std::pair<BodySide, Landmark>> points,
                const ValueOn& valueOn);
    [[nodiscard]] PixelPoint slopeOn(const FoundPeak& found, std::size_t i, const MarkKey& mark,
                                     const ValueOn& valueOn);
    /// The samples of a search with their frames, a little beyond its stretch too.
    [[nodiscard]] FoundPeak samplesOf(const Search& search) const;
    std::optional<PlanePoint> pointOn(const MarkKey& key, bool remember = true);
    PlanePoint notMarked(Landmark landmark, BodySide side, Instant instant, std::size_t step);
    double eventTime(const EventKey& key, Seconds undisturbed);
    bool hasNextStep();
    /// How far the disturbed mark moves a value that is a mean over many frames; 0 where it is none
    /// of them.
    double movedOnFrame(const FewLandmarks& landmarks, const OnFrame& value);

    const PreparedClip& m_clip;
    std::size_t m_step;
    const Evidence* m_plain{}; ///< of shifted evidence: the one it was made from
    Disturbance m_disturbance;
    std::vector<FoundPeak> m_peaks;           ///< in the order they were asked for
    std::vector<FrameNumber> m_nearestFrames; ///< likewise
    std::size_t m_peaksAsked{};
    std::size_t m_nearestAsked{};
    std::optional<std::string> m_missing;
    std::vector<MarkKey> m_marksUsed;   ///< in order, each once
    std::vector<MarkKey> m_marksRead;   ///< those of them that were not read by paths alone
    std::vector<EventKey> m_eventsUsed; ///< likewise
    PathSlopes m_pathSlopesToo;
    std::vector<PathSlope> m_pathSlopes;
    bool m_readLate{};
    bool m_readMidway{};
    bool m_usedTrunk{};
    bool m_usedBelt{};
    bool m_usedFlatFoot{};
    double m_flatVariance{};
};

} // namespace latemile
