// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace latemile::maker {

/// Smooth random relief on a plane, the same for ever for one seed: plaster, rubber, cloth.
class Relief {
public:
    explicit Relief(std::uint64_t seed);
    /// -1 to 1; one bump per unit of x and y, repeating after 64.
    [[nodiscard]] double at(double x, double y) const;
    /// Two sizes of bumps, coarse and four times finer.
    [[nodiscard]] double rough(double x, double y) const
    {
        return 0.65 * at(x, y) + 0.35 * at(4.0 * x + 17.3, 4.0 * y + 5.1);
    }

private:
    std::vector<float> m_heights;
};

} // namespace latemile::maker
