// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/cues.hpp"

#include "core/json_file.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace latemile {
namespace {

Outcome<std::string> textOf(const JsonField& cue, std::string_view key)
{
    ASSIGN_OR_RETURN(auto text, cue.text(key));
    if (text.empty()) {
        return cue.fault("\"" + std::string(key) + "\" is empty");
    }
    return text;
}

Outcome<Cue::Answers> answerFrom(const JsonField& answer)
{
    ASSIGN_OR_RETURN(auto measure, textOf(answer, "measure"));
    ASSIGN_OR_RETURN(const auto change, textOf(answer, "change"));
    if (change != "rose" && change != "fell") {
        return answer.fault("the change is \"" + change + "\"; write \"rose\" or \"fell\"");
    }
    return Cue::Answers{std::move(measure), change == "rose"};
}

Outcome<Cue> cueFrom(const JsonField& field)
{
    Cue cue;
    ASSIGN_OR_RETURN(cue.id, textOf(field, "id"));
    ASSIGN_OR_RETURN(cue.think, textOf(field, "think"));
    ASSIGN_OR_RETURN(cue.why, textOf(field, "why"));
    ASSIGN_OR_RETURN(cue.drill, textOf(field, "drill"));
    ASSIGN_OR_RETURN(cue.caution, field.optionalText("caution"));
    ASSIGN_OR_RETURN(const auto list, field.member("answers"));
    ASSIGN_OR_RETURN(const auto answers, list.items());
    for (const JsonField& answer : answers) {
        ASSIGN_OR_RETURN(auto read, answerFrom(answer));
        cue.answers.push_back(std::move(read));
    }
    if (cue.answers.empty()) {
        return list.fault("the cue answers no change of a measure");
    }
    return cue;
}

bool answers(const Cue& cue, const ComparisonRow& row)
{
    if (row.verdict != Verdict::ClearChange || !row.change) {
        return false;
    }
    return std::any_of(cue.answers.begin(), cue.answers.end(), [&](const Cue::Answers& answer) {
        return answer.measure == row.measure && answer.rose == (*row.change > 0.0);
    });
}

/// How many errors the change is large: comparable between units.
double clearness(const ComparisonRow& row)
{
    const double half = row.halfWidth.value_or(0.0);
    return half > 0.0 ? std::abs(*row.change) / half : 0.0;
}

std::set<std::string> answered(const Cue& cue, const Comparison& comparison)
{
    std::set<std::string> measures;
    for (const ComparisonRow& row : comparison.rows) {
        if (answers(cue, row)) {
            measures.insert(row.measure);
        }
    }
    return measures;
}

/// Of the cues with news the one that answers most; nothing where none has any.
const Cue* bestWithNews(const std::set<std::string>& told, const Comparison& comparison,
                        const std::vector<Cue>& cues)
{
    const Cue* best = nullptr;
    std::size_t most = 0;
    for (const Cue& cue : cues) {
        const auto measures = answered(cue, comparison);
        const bool news = std::any_of(measures.begin(), measures.end(),
                                      [&](const auto& id) { return !told.contains(id); });
        if (news && measures.size() > most) {
            best = &cue;
            most = measures.size();
        }
    }
    return best;
}

} // namespace

Outcome<std::vector<Cue>> readCues(const std::filesystem::path& file)
{
    ASSIGN_OR_RETURN(const auto document, readJsonFile(file));
    const JsonField root(document, file.string());
    RETURN_IF_ERROR(needVersion(root, 1));
    ASSIGN_OR_RETURN(const auto list, root.member("cues"));
    ASSIGN_OR_RETURN(const auto fields, list.items());
    std::vector<Cue> cues;
    std::set<std::string> ids;
    for (const JsonField& field : fields) {
        ASSIGN_OR_RETURN(auto cue, cueFrom(field));
        if (!ids.insert(cue.id).second) {
            return field.fault("an earlier cue has the id \"" + cue.id + "\" too");
        }
        cues.push_back(std::move(cue));
    }
    return cues;
}

const ComparisonRow* reasonFor(const Cue& cue, const Comparison& comparison)
{
    const ComparisonRow* best = nullptr;
    for (const ComparisonRow& row : comparison.rows) {
        if (answers(cue, row) && (!best || clearness(row) > clearness(*best))) {
            best = &row;
        }
    }
    return best;
}

std::vector<FittingCue> fittingCues(const Comparison& comparison, const std::vector<Cue>& cues)
{
    std::vector<FittingCue> fitting;
    std::set<std::string> told;
    constexpr std::size_t most = 2; // an athlete keeps one thought in mind, two at the very most
    while (fitting.size() < most) {
        const Cue* best = bestWithNews(told, comparison, cues);
        if (!best) {
            break;
        }
        fitting.push_back({best, reasonFor(*best, comparison)->sentence});
        told.merge(answered(*best, comparison));
    }
    return fitting;
}

} // namespace latemile
