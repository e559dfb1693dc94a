// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/scene.hpp"

namespace latemile {

std::string_view nameOf(View view)
{
    switch (view) {
    case View::LeftSide:
        return "left-side";
    case View::RightSide:
        return "right-side";
    case View::Rear:
        return "rear";
    case View::Front:
        return "front";
    }
    return {};
}

std::string_view nameOf(Travel travel)
{
    return travel == Travel::Left ? "left" : "right";
}

} // namespace latemile
