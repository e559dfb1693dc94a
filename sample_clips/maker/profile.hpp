// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <utility>
#include <vector>

namespace latemile::maker {

/// The outline of one body part along its own axis, in cm: how far it reaches to the front and to
/// the back of the axis. The ends may be rounded.
class Profile {
public:
    struct Point {
        double along; ///< from the part's first joint towards its second
        double front; ///< reach towards the front of the body
        double back;  ///< reach towards the back; negative: the part begins before the axis
    };
    /// `points` in rising order of `along`, at least two.
    /// Over the last `fadeEnd` cm the part grows transparent, so that a joint shows no seam.
    Profile(const std::vector<Point>& points, double roundStart, double roundEnd,
            double fadeEnd = 0.0);

    [[nodiscard]] double begin() const { return m_begin; }
    [[nodiscard]] double end() const { return m_end; }
    [[nodiscard]] double widest() const { return m_widest; } ///< the greater of all reaches
    [[nodiscard]] double fadeEnd() const { return m_fadeEnd; }
    /// Reach to the front and to the back at a place between begin and end.
    [[nodiscard]] std::pair<double, double> at(double along) const
    {
        const double place = (along - m_begin) * m_perCm;
        const auto i = static_cast<std::size_t>(place);
        const double share = place - static_cast<double>(i);
        return {m_front[i] + share * (m_front[i + 1] - m_front[i]),
                m_back[i] + share * (m_back[i + 1] - m_back[i])};
    }

private:
    static constexpr std::size_t cells = 64;
    double m_begin{};
    double m_end{};
    double m_perCm{};
    double m_widest{};
    double m_fadeEnd{};
    std::array<double, cells + 2> m_front{};
    std::array<double, cells + 2> m_back{};
};

} // namespace latemile::maker
