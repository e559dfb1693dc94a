// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/marks/landmark.hpp"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <span>

namespace latemile {

/// The landmarks a value needs, each once, in the order they were named. Held in place: formulas
/// are asked for their slopes thousands of times, and a list on the heap took longer than they do.
class FewLandmarks {
public:
    FewLandmarks(std::initializer_list<Landmark> landmarks) { add(landmarks); }
    explicit FewLandmarks(std::span<const Landmark> landmarks) { add(landmarks); }

    [[nodiscard]] const Landmark* begin() const { return m_landmarks.data(); }
    [[nodiscard]] const Landmark* end() const { return begin() + m_count; }
    [[nodiscard]] Landmark front() const { return m_landmarks.front(); }
    [[nodiscard]] bool contains(Landmark landmark) const
    {
        return std::find(begin(), end(), landmark) != end();
    }

private:
    void add(std::span<const Landmark> landmarks)
    {
        for (const auto landmark : landmarks) {
            if (!contains(landmark)) {
                m_landmarks[m_count++] = landmark;
            }
        }
    }

    std::array<Landmark, landmarkCount> m_landmarks{};
    std::size_t m_count{};
};

} // namespace latemile
