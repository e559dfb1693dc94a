// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_clips/maker/truth_measures.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace latemile::maker {

namespace {

double angle(double across, double along)
{
    return degrees(std::atan2(across, along));
}

/// One side of the body at one time, with the angles and distances a coach speaks of.
struct Look {
    Vec3 ear, shoulder, elbow, wrist, hip, knee, ankle, heel, toe;

    double thigh() const { return angle(knee.x - hip.x, hip.y - knee.y); }
    double shank() const { return angle(ankle.x - knee.x, knee.y - ankle.y); }
    double kneeBend() const { return thigh() - shank(); }
    double foot() const { return angle(toe.y - heel.y, toe.x - heel.x); }
    double lean() const { return angle(shoulder.x - hip.x, shoulder.y - hip.y); }
    double trunk() const { return std::hypot(shoulder.x - hip.x, shoulder.y - hip.y); }
    double elbowAngle() const
    {
        const Vec2 up{shoulder.x - elbow.x, shoulder.y - elbow.y};
        const Vec2 out{wrist.x - elbow.x, wrist.y - elbow.y};
        const double cross = up.x * out.y - up.y * out.x;
        return degrees(std::atan2(std::abs(cross), up.x * out.x + up.y * out.y));
    }
};

using Quantity = std::function<double(const Look&)>;

/// A stance with the next two contacts, if the clip still shows them, at exact times or at the
/// rule's.
struct Stance {
    double contact{}, toeOff{}, middle{};
    std::optional<double> nextContact{};     ///< of the other foot
    std::optional<double> nextSameContact{}; ///< of the same foot
};

class Reader {
public:
    Reader(const Truth& truth, const RunnerModel& model)
        : m_truth(truth), m_model(model),
          m_near(truth.recipe.camera.view == View::LeftSide ? Foot::Left : Foot::Right),
          m_footFlat(angle(model.body().toe.y, model.body().toe.x)), m_trunk(meanTrunk())
    {
    }

    std::vector<TruthReading> all()
    {
        for (std::size_t i = 0; i < m_truth.contacts.size(); ++i) {
            m_step = i;
            m_exact = stanceOf(i, false);
            m_rule = stanceOf(i, true);
            addTimings();
            addUpperBody();
            if (m_truth.contacts[i].foot == m_near) {
                addContact();
                addStance();
                addSwing();
                addStride();
            }
        }
        addStepRate();
        return std::move(m_readings);
    }

private:
    [[nodiscard]] Look look(Foot side, double t) const
    {
        const auto places = placesOf(m_model.pose(t), side);
        return {places[0], places[1], places[2], places[3], places[4],
                places[5], places[6], places[7], places[8]};
    }
    [[nodiscard]] Look near(double t) const { return look(m_near, t); }

    [[nodiscard]] double meanTrunk() const
    {
        double sum = 0;
        for (const auto& time : m_truth.times) {
            sum += near(time.seconds).trunk();
        }
        return sum / static_cast<double>(m_truth.times.size());
    }

    [[nodiscard]] Stance stanceOf(std::size_t i, bool rule) const
    {
        const auto& all = m_truth.contacts;
        const auto contact = [&](std::size_t k) {
            return rule ? all[k].ruleContact : all[k].contact;
        };
        Stance it{.contact = contact(i), .toeOff = rule ? all[i].ruleToeOff : all[i].toeOff};
        it.middle = 0.5 * (it.contact + it.toeOff);
        if (rule) {
            it.middle = nearestFrame(it.middle);
        }
        if (i + 1 < all.size()) {
            it.nextContact = contact(i + 1);
        }
        if (i + 2 < all.size()) {
            it.nextSameContact = contact(i + 2);
        }
        return it;
    }

    [[nodiscard]] double nearestFrame(double t) const
    {
        return std::min_element(m_truth.times.begin(), m_truth.times.end(),
                                [t](const FrameTime& a, const FrameTime& b) {
                                    return std::abs(a.seconds - t) < std::abs(b.seconds - t);
                                })
            ->seconds;
    }

    void add(std::string measure, std::string unit, std::string instant, double time,
             double ruleTime, double value, double ruleValue)
    {
        m_readings.push_back({.measure = std::move(measure),
                              .unit = std::move(unit),
                              .step = static_cast<int>(m_step) + 1,
                              .foot = m_truth.contacts[m_step].foot,
                              .instant = std::move(instant),
                              .time = time,
                              .value = value,
                              .ruleTime = ruleTime,
                              .ruleValue = ruleValue});
    }
    void addAt(const char* measure, const char* unit, const char* instant, double time,
               double ruleTime, const Quantity& quantity)
    {
        add(measure, unit, instant, time, ruleTime, quantity(near(time)), quantity(near(ruleTime)));
    }
    void addAtContact(const char* measure, const char* unit, const Quantity& quantity)
    {
        addAt(measure, unit, "contact", m_exact.contact, m_rule.contact, quantity);
    }
    void addAtMiddle(const char* measure, const char* unit, const Quantity& quantity)
    {
        addAt(measure, unit, "mid-stance", m_exact.middle, m_rule.middle, quantity);
    }
    void addAtToeOff(const char* measure, const char* unit, const Quantity& quantity)
    {
        addAt(measure, unit, "toe-off", m_exact.toeOff, m_rule.toeOff, quantity);
    }

    /// Time and value of the greatest value in a window, to a microsecond.
    [[nodiscard]] std::pair<double, double> greatest(double from, double to,
                                                     const Quantity& quantity) const
    {
        double best = from;
        double value = quantity(near(from));
        double low = from;
        double high = to;
        for (double step = 0.002; step > 1e-6; step *= 0.1) {
            for (double t = low; t <= high; t += step) {
                if (const double now = quantity(near(t)); now > value) {
                    value = now;
                    best = t;
                }
            }
            low = std::max(from, best - step);
            high = std::min(to, best + step);
        }
        return {best, value};
    }
    void addPeak(const char* measure, const char* unit, const char* window, double from, double to,
                 const Quantity& quantity)
    {
        // A peak does not hang on where the frames lie.
        const auto [time, value] = greatest(from, to, quantity);
        add(measure, unit, window, time, time, value, value);
    }

    void addTimings();
    void addUpperBody();
    void addContact();
    void addStance();
    void addSwing();
    void addStride();
    void addArms(double from, double to);
    void addStepRate();
    [[nodiscard]] double stepLength(const Stance& stance) const;

    const Truth& m_truth;
    const RunnerModel& m_model;
    Foot m_near;
    double m_footFlat; ///< angle of the flat shoe's heel-to-toe line
    double m_trunk;
    std::size_t m_step{};
    Stance m_exact;
    Stance m_rule;
    std::vector<TruthReading> m_readings;
};

double Reader::stepLength(const Stance& stance) const
{
    const Foot foot = m_truth.contacts[m_step].foot;
    const double bracket =
        look(other(foot), *stance.nextContact).ankle.x - look(foot, stance.contact).ankle.x;
    const double belt = m_truth.recipe.runner.overground
                            ? 0.0
                            : m_truth.recipe.runner.speed * (*stance.nextContact - stance.contact);
    return belt + bracket / 100.0;
}

void Reader::addTimings()
{
    const double tc = m_exact.contact;
    const double rc = m_rule.contact;
    add("contact_time", "ms", "stance", tc, rc, 1000 * (m_exact.toeOff - tc),
        1000 * (m_rule.toeOff - rc));
    if (m_exact.nextContact) {
        add("flight_time", "ms", "after stance", m_exact.toeOff, m_rule.toeOff,
            1000 * (*m_exact.nextContact - m_exact.toeOff),
            1000 * (*m_rule.nextContact - m_rule.toeOff));
        add("step_length", "m", "step", tc, rc, stepLength(m_exact), stepLength(m_rule));
    }
    if (m_exact.nextSameContact) {
        add("duty_factor", "%", "stride", tc, rc,
            100 * (m_exact.toeOff - tc) / (*m_exact.nextSameContact - tc),
            100 * (m_rule.toeOff - rc) / (*m_rule.nextSameContact - rc));
    }
}

void Reader::addUpperBody()
{
    addAtMiddle("head_forward", "cm", [](const Look& l) { return l.ear.x - l.shoulder.x; });
    addAtMiddle("head_angle", "deg", [](const Look& l) {
        return angle(l.ear.x - l.shoulder.x, l.ear.y - l.shoulder.y);
    });
    addAtMiddle("neck_length", "cm", [](const Look& l) { return l.ear.y - l.shoulder.y; });
    addAtMiddle("trunk_lean", "deg", [](const Look& l) { return l.lean(); });
}

void Reader::addContact()
{
    addAtContact("foot_ahead", "cm", [](const Look& l) { return l.ankle.x - l.hip.x; });
    addAtContact("shank_angle", "deg", [](const Look& l) { return l.shank(); });
    addAtContact("knee_flex_contact", "deg", [](const Look& l) { return l.kneeBend(); });
    addAtContact("foot_inclination", "deg",
                 [this](const Look& l) { return l.foot() - m_footFlat; });
    addAtContact("dorsiflexion", "deg",
                 [this](const Look& l) { return l.foot() - m_footFlat - l.shank(); });
}

void Reader::addStance()
{
    addAtMiddle("hips_behind", "cm", [](const Look& l) { return l.ankle.x - l.hip.x; });
    addAtMiddle("hip_height", "%",
                [this](const Look& l) { return 100 * l.hip.y / m_truth.legLengthCm; });
    addAtMiddle("dorsiflexion", "deg",
                [this](const Look& l) { return l.foot() - m_footFlat - l.shank(); });
    const auto sunk = [this](const Stance& s) {
        return near(s.contact).hip.y - near(s.middle).hip.y;
    };
    add("hip_drop", "cm", "contact, mid-stance", m_exact.middle, m_rule.middle, sunk(m_exact),
        sunk(m_rule));
    const auto bend = [](const Look& l) { return l.kneeBend(); };
    addPeak("knee_flex_stance", "deg", "peak, stance", m_exact.contact, m_exact.toeOff, bend);
    const TruthReading peak = m_readings.back();
    add("knee_excursion", "deg", "stance", peak.time, peak.time,
        peak.value - bend(near(m_exact.contact)), peak.value - bend(near(m_rule.contact)));
    addAtToeOff("trailing_limb", "deg",
                [](const Look& l) { return angle(l.hip.x - l.toe.x, l.hip.y - l.toe.y); });
    addAtToeOff("hip_extension", "deg", [](const Look& l) { return -(l.thigh() + l.lean()); });
}

void Reader::addSwing()
{
    if (!m_exact.nextSameContact) {
        return;
    }
    const double from = m_exact.toeOff;
    const double to = *m_exact.nextSameContact;
    addPeak("thigh_lift", "deg", "peak, swing", from, to, [](const Look& l) { return l.thigh(); });
    addPeak("swing_knee", "deg", "peak, swing", from, to,
            [](const Look& l) { return l.kneeBend(); });
    // The flat shoe's heel corner lies on the ground itself, y = 0.
    addPeak("foot_lift", "cm", "peak, swing", from, to, [](const Look& l) { return l.heel.y; });
}

void Reader::addStride()
{
    if (!m_exact.nextSameContact) {
        return;
    }
    const auto range = [this](double from, double to) {
        return greatest(from, to, [](const Look& l) { return l.hip.y; }).second +
               greatest(from, to, [](const Look& l) { return -l.hip.y; }).second;
    };
    const auto bounce = [&range](const Stance& s) {
        return 0.5 * (range(s.contact, *s.nextContact) + range(*s.nextContact, *s.nextSameContact));
    };
    add("vertical_osc", "cm", "stride", m_exact.contact, m_rule.contact, bounce(m_exact),
        bounce(m_rule));
    addArms(m_exact.contact, *m_exact.nextSameContact);
}

void Reader::addArms(double from, double to)
{
    addPeak("arm_back", "cm", "stride maximum", from, to,
            [](const Look& l) { return l.shoulder.x - l.elbow.x; });
    const double back = m_readings.back().time;
    addPeak("arm_forward", "cm", "stride maximum", from, to,
            [](const Look& l) { return l.wrist.x - l.shoulder.x; });
    const double forward = m_readings.back().time;
    const double mean = 0.5 * (near(back).elbowAngle() + near(forward).elbowAngle());
    add("elbow_angle", "deg", "both arm extremes, mean", from, from, mean, mean);
    addPeak("hand_height", "%", "stride maximum", from, to,
            [this](const Look& l) { return 100 * (l.wrist.y - l.hip.y) / m_trunk; });
    addPeak("hand_height", "%", "stride minimum", from, to,
            [this](const Look& l) { return -100 * (l.wrist.y - l.hip.y) / m_trunk; });
    m_readings.back().value *= -1;
    m_readings.back().ruleValue *= -1;
}

void Reader::addStepRate()
{
    const auto& all = m_truth.contacts;
    if (all.size() < 2) {
        return;
    }
    const auto steps = 60.0 * static_cast<double>(all.size() - 1);
    m_readings.push_back({.measure = "step_rate",
                          .unit = "steps/min",
                          .instant = "run of steps",
                          .time = all.front().contact,
                          .value = steps / (all.back().contact - all.front().contact),
                          .ruleTime = all.front().ruleContact,
                          .ruleValue = steps / (all.back().ruleContact - all.front().ruleContact)});
}

} // namespace

std::vector<TruthReading> sideReadings(const Truth& truth, const RunnerModel& model)
{
    return Reader(truth, model).all();
}

} // namespace latemile::maker
