// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/marks/marking.hpp"

namespace latemile {

const Mark* Marking::find(const MarkKey& key) const
{
    const auto found = marks.find(key);
    return found == marks.end() ? nullptr : &found->second;
}

} // namespace latemile
