// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json_or_null.hpp"
#include "core/measures/explanation.hpp"
#include "core/rounding.hpp"

#include <nlohmann/json.hpp>

namespace latemile {

namespace {

using nlohmann::json;

std::string headOf(const Explanation& it)
{
    std::string text = it.name + " (" + it.measure + ", " + it.unit + ")\n";
    text += it.meaning + "\n";
    text += "read at: " + it.instant + "; more means: " + it.positive +
            "; smallest change worth a word: " + fixedText(it.floor, it.decimals) + " " + it.unit +
            "\n";
    text += "beware: " + it.traps + "\nsource: " + it.source + "\n\n";
    return text;
}

std::string whereOf(const Explanation& it)
{
    if (it.step) {
        return "Step " + std::to_string(it.step->value) +
               (it.foot ? ", " + std::string(nameOf(*it.foot)) + " foot" : "");
    }
    return it.steps == 1 ? "One step" : "Mean of " + std::to_string(it.steps) + " steps";
}

std::string valueOf(const Explanation& it)
{
    if (!it.value) {
        return whereOf(it) + ": no value: " + it.reason + ".\n";
    }
    const auto pair = roundedTogether(*it.value, it.se.value_or(0.0), it.decimals + 1);
    return whereOf(it) + ": " + pair.value + " \u00b1 " + pair.error + " " + it.unit +
           " (one standard error)\n";
}

std::string sourcesText(const Explanation& it)
{
    std::string text = it.sources.empty() ? "" : "\nWhere the error comes from:\n";
    for (const auto& source : it.sources) {
        const auto percent = fixedText(100.0 * source.share, 0);
        text += std::string(5 - std::min<std::size_t>(percent.size(), 4), ' ') + percent + " %  " +
                source.name + "\n";
    }
    return text;
}

std::string remediesText(const Explanation& it)
{
    if (it.sources.empty()) {
        return {};
    }
    if (it.remedies.empty()) {
        return "\nNothing a coach can do at once would lower this error by 5 % or more.\n";
    }
    std::string text = "\nWhat would help most:\n";
    for (const auto& remedy : it.remedies) {
        text += "  " + remedy.sentence + "\n";
    }
    return text;
}

std::string marksText(const Explanation& it)
{
    std::string text = it.marks.empty() ? "" : "\nMarks it came from:\n";
    for (const auto& used : it.marks) {
        text += "  frame " + std::to_string(used.key.frame.value) + "  " +
                std::string(nameOf(used.key.side)) + " " + std::string(nameOf(used.key.landmark)) +
                "  " + fixedText(used.mark.at.u, 1) + ", " + fixedText(used.mark.at.v, 1) +
                " px \u00b1 " + fixedText(used.sePx, 1) + "  " +
                std::string(nameOf(used.mark.origin)) + "\n";
    }
    return text;
}

json markJson(const MarkUsed& used)
{
    return {{"frame", used.key.frame.value},
            {"side", nameOf(used.key.side)},
            {"landmark", nameOf(used.key.landmark)},
            {"x_px", used.mark.at.u},
            {"y_px", used.mark.at.v},
            {"origin", nameOf(used.mark.origin)},
            {"se_px", used.sePx}};
}

} // namespace

std::string textOf(const Explanation& it)
{
    return headOf(it) + valueOf(it) + sourcesText(it) + remediesText(it) + marksText(it);
}

json toJson(const Explanation& it)
{
    auto sources = json::array();
    for (const auto& source : it.sources) {
        sources.push_back(
            {{"source", source.name}, {"variance", source.variance}, {"share", source.share}});
    }
    auto remedies = json::array();
    for (const auto& remedy : it.remedies) {
        remedies.push_back(
            {{"what", remedy.what}, {"se_after", remedy.seAfter}, {"sentence", remedy.sentence}});
    }
    auto marks = json::array();
    for (const auto& used : it.marks) {
        marks.push_back(markJson(used));
    }
    return {{"version", 1},
            {"measure", it.measure},
            {"name", it.name},
            {"unit", it.unit},
            {"meaning", it.meaning},
            {"positive", it.positive},
            {"instant", it.instant},
            {"traps", it.traps},
            {"definition_source", it.source},
            {"floor", it.floor},
            {"step", it.step ? json(it.step->value) : json(nullptr)},
            {"foot", it.foot ? json(nameOf(*it.foot)) : json(nullptr)},
            {"steps", it.steps},
            {"value", orNull(it.value)},
            {"se", orNull(it.se)},
            {"reason", it.reason},
            {"sources", sources},
            {"remedies", remedies},
            {"marks", marks}};
}

} // namespace latemile
