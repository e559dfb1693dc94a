// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/simulation/true_values.hpp"

#include "core/scene/plane.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace latemile::simulation {

namespace {

using maker::Foot;
using maker::Vec3;

double angle(double across, double along)
{
    return maker::degrees(std::atan2(across, along));
}

/// The maker's names of two readings of one measure.
std::string idOf(const maker::TruthReading& reading)
{
    if (reading.measure == "dorsiflexion" && reading.instant == "mid-stance") {
        return "dorsiflexion_mid_stance";
    }
    if (reading.measure == "hand_height" && reading.instant == "stride minimum") {
        return "hand_height_lowest";
    }
    return reading.measure;
}

/// One step at exact times.
struct Step {
    Foot foot{};
    double contact{};
    double toeOff{};
    double middle{};
    std::optional<double> nextContact;
    std::optional<double> nextToeOff;
    std::optional<double> strideEnd;
};

class Values {
public:
    explicit Values(const TrueRun& run)
        : m_run(run), m_plane(Plane::from(run.scene).value()),
          m_near(run.recipe.camera.view == maker::View::LeftSide ? Foot::Left : Foot::Right)
    {
    }

    std::map<std::string, std::vector<std::optional<double>>> all()
    {
        for (const auto& reading : m_run.truth.readings) {
            if (reading.step) {
                set(idOf(reading), static_cast<std::size_t>(*reading.step - 1), reading.value);
            }
        }
        for (std::size_t i = 0; i < m_run.truth.contacts.size(); ++i) {
            const auto step = stepOf(i);
            if (m_run.recipe.camera.view == maker::View::Rear) {
                addFromBehind(i, step);
            } else {
                addRates(i, step);
                addShares(i, step);
                addSide(i, step);
            }
        }
        return std::move(m_values);
    }

private:
    void set(const std::string& id, std::size_t i, double value)
    {
        auto& values = m_values[id];
        values.resize(m_run.truth.contacts.size());
        values[i] = value;
    }
    [[nodiscard]] std::optional<double> get(const std::string& id, std::size_t i) const
    {
        const auto found = m_values.find(id);
        return found == m_values.end() ? std::nullopt : found->second[i];
    }

    [[nodiscard]] Step stepOf(std::size_t i) const
    {
        const auto& all = m_run.truth.contacts;
        Step step{.foot = all[i].foot,
                  .contact = all[i].contact,
                  .toeOff = all[i].toeOff,
                  .middle = 0.5 * (all[i].contact + all[i].toeOff),
                  .nextContact = std::nullopt,
                  .nextToeOff = std::nullopt,
                  .strideEnd = std::nullopt};
        if (i + 1 < all.size()) {
            step.nextContact = all[i + 1].contact;
            step.nextToeOff = all[i + 1].toeOff;
        }
        if (i + 2 < all.size()) {
            step.strideEnd = all[i + 2].contact;
        }
        return step;
    }

    void addRates(std::size_t i, const Step& step)
    {
        if (!step.strideEnd) {
            return;
        }
        set("step_rate", i, 120.0 / (*step.strideEnd - step.contact));
        if (step.foot == Foot::Left) {
            const auto against = [](double left, double right) {
                return 200.0 * (left - right) / (left + right);
            };
            set("step_asymmetry", i,
                against(*step.nextContact - step.contact, *step.strideEnd - *step.nextContact));
            set("contact_asymmetry", i,
                against(step.toeOff - step.contact, *step.nextToeOff - *step.nextContact));
        }
    }

    /// Shares of leg and trunk of what the maker tells in centimetres.
    void addShares(std::size_t i, const Step& step)
    {
        const auto share = [&](const char* id, const char* of, double whole) {
            if (const auto value = get(of, i)) {
                set(id, i, 100.0 * *value / whole);
            }
        };
        share("foot_ahead_percent", "foot_ahead", m_run.truth.legLengthCm);
        share("foot_lift_percent", "foot_lift", m_run.truth.legLengthCm);
        share("neck_length_percent", "neck_length", trunk());
        const auto look = near(step.contact);
        set("trunk_lean_at_contact", i, angle(look[1].x - look[4].x, look[1].y - look[4].y));
    }

    void addSide(std::size_t i, const Step& step)
    {
        set("pelvic_tilt", i, angle(-asisFromPsis.y, asisFromPsis.x));
        if (step.foot != m_near) {
            return;
        }
        const auto look = near(step.contact);
        set("heel_ahead", i, look[7].x - look[4].x);
        set("dorsiflexion_peak", i, greatest(step.contact, step.toeOff, [&](double t) {
                const auto at = near(t);
                const double foot = angle(at[8].y - at[7].y, at[8].x - at[7].x);
                const double shank = angle(at[6].x - at[5].x, at[5].y - at[6].y);
                return foot - flatFoot() - shank;
            }));
    }

    void addFromBehind(std::size_t i, const Step& step)
    {
        const double out = step.foot == Foot::Right ? 1.0 : -1.0;
        const auto left = seen(Foot::Left, step.middle);
        const auto right = seen(Foot::Right, step.middle);
        set("pelvic_drop", i, out * angle(right[10].y - left[10].y, right[10].x - left[10].x));
        set("trunk_side", i,
            out * angle(left[1].x + right[1].x - left[4].x - right[4].x,
                        left[1].y + right[1].y - left[4].y - right[4].y));
        set("knee_window", i, right[5].x - left[5].x);
        const auto eversion = [&](double t) {
            const auto foot = seen(step.foot, t);
            return angle(out * (foot[7].x - foot[9].x), foot[9].y - foot[7].y);
        };
        set("heel_eversion", i,
            greatest(step.contact, step.toeOff, eversion) - eversion(step.contact));
        if (step.nextContact) {
            const double next = 0.5 * (*step.nextContact + *step.nextToeOff);
            const auto own = seen(step.foot, step.middle);
            const auto other = seen(maker::other(step.foot), next);
            set("step_width", i, out * (own[7].x - other[7].x));
        }
        if (step.strideEnd) {
            addStrideFromBehind(i, step);
        }
    }

    void addStrideFromBehind(std::size_t i, const Step& step)
    {
        const double inwards = step.foot == Foot::Right ? -1.0 : 1.0;
        double level = 0.0;
        int n = 0;
        for (double t = step.contact; t <= *step.strideEnd; t += 0.002, ++n) {
            const auto left = seen(Foot::Left, t);
            const auto right = seen(Foot::Right, t);
            level += angle(right[1].y - left[1].y, right[1].x - left[1].x);
        }
        set("shoulder_level", i, level / n);
        set("arm_cross", i, greatest(step.contact, *step.strideEnd, [&](double t) {
                const auto left = seen(Foot::Left, t);
                const auto right = seen(Foot::Right, t);
                const auto& own = step.foot == Foot::Left ? left : right;
                return inwards * (own[3].x - (left[1].x + right[1].x) / 2.0);
            }));
    }

    using Points = std::array<Vec3, maker::landmarkNames.size()>;
    [[nodiscard]] Points near(double t) const
    {
        return maker::placesOf(m_run.model.pose(t), m_near);
    }
    /// As the picture shows them, in the plane of the scene.
    [[nodiscard]] std::array<PlanePoint, maker::landmarkNames.size()> seen(Foot side,
                                                                           double t) const
    {
        std::array<PlanePoint, maker::landmarkNames.size()> points;
        const auto places = maker::placesOf(m_run.model.pose(t), side);
        std::ranges::transform(places, points.begin(), [this](Vec3 place) {
            return m_plane.toPlane(m_run.camera.project(place));
        });
        return points;
    }

    [[nodiscard]] double trunk()
    {
        if (m_trunk == 0.0) {
            for (const auto& time : m_run.truth.times) {
                const auto look = near(time.seconds);
                m_trunk += std::hypot(look[1].x - look[4].x, look[1].y - look[4].y) /
                           static_cast<double>(m_run.truth.times.size());
            }
        }
        return m_trunk;
    }
    [[nodiscard]] double flatFoot() const
    {
        const auto& body = m_run.model.body();
        return angle(body.toe.y, body.toe.x);
    }

    /// To a tenth of a millisecond.
    [[nodiscard]] static double greatest(double from, double to,
                                         const std::function<double(double)>& value)
    {
        double best = from;
        double greatest = value(from);
        const auto look = [&](double low, double high, double step) {
            for (double t = low; t <= high; t += step) {
                if (const double now = value(t); now > greatest) {
                    greatest = now;
                    best = t;
                }
            }
        };
        look(from, to, 0.002);
        const double middle = best;
        look(std::max(from, middle - 0.002), std::min(to, middle + 0.002), 0.0001);
        return greatest;
    }

    const TrueRun& m_run;
    Plane m_plane;
    Foot m_near;
    double m_trunk{};
    std::map<std::string, std::vector<std::optional<double>>> m_values;
};

} // namespace

std::map<std::string, std::vector<std::optional<double>>> trueValues(const TrueRun& run)
{
    return Values(run).all();
}

} // namespace latemile::simulation
