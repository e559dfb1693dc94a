// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/screening.hpp"

#include <algorithm>
#include <array>

namespace latemile {
namespace {

constexpr std::array flags{
    RedFlag{"chest_pain", "Pain, pressure or tightness in the chest, at rest or in effort?",
            "chest pain or tightness"},
    RedFlag{"fainting", "Fainting, dizzy spells or a racing, uneven heartbeat when running?",
            "fainting, dizziness or an uneven heartbeat"},
    RedFlag{"breathless", "Out of breath far more than the pace explains?",
            "unexplained breathlessness"},
    RedFlag{"pain_in_gait", "Pain today that makes you limp or run differently?",
            "pain that changes the gait"},
    RedFlag{"bone_pain", "Pain on one spot of a bone that is worse after each run, or at night?",
            "pain on one spot of a bone"},
    RedFlag{"numbness", "Numbness, tingling or new weakness in a leg?",
            "numbness or weakness in a leg"},
    RedFlag{"recent_injury", "An injury, a fall or an operation in the last three months?",
            "a recent injury or operation"},
    RedFlag{"fever", "Fever, or an infection not yet over?", "fever or infection"},
    RedFlag{"pregnancy", "Pregnant or recently given birth, and not yet advised on running?",
            "pregnancy or recent birth without advice on running"},
    RedFlag{"advised_against", "Has a doctor or physiotherapist advised against running?",
            "advice against running"},
};

} // namespace

std::span<const RedFlag> redFlags()
{
    return flags;
}

const RedFlag* findRedFlag(std::string_view id)
{
    const auto found = std::ranges::find(flags, id, &RedFlag::id);
    return found == flags.end() ? nullptr : &*found;
}

std::string flagWords(const Screening& screening)
{
    std::string words;
    for (const std::string& id : screening.flags) {
        const RedFlag* flag = findRedFlag(id);
        words += words.empty() ? "" : "; ";
        words += flag ? flag->name : std::string_view(id);
    }
    return words;
}

} // namespace latemile
