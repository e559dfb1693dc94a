// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/runner_box.hpp"

#include "app/batch/text_parts.hpp"
#include "core/csv.hpp"

#include <array>

namespace latemile::batch {

namespace {

std::optional<Box> boxFrom(std::string_view text)
{
    const auto parts = partsOf(text, ',');
    if (parts.size() != 4) {
        return std::nullopt;
    }
    std::array<double, 4> values{};
    for (std::size_t k = 0; k < values.size(); ++k) {
        const auto value = numberFrom(parts[k]);
        if (!value) {
            return std::nullopt;
        }
        values[k] = *value;
    }
    const Box box{values[0], values[1], values[2], values[3]};
    return box.width >= 1 && box.height >= 1 ? std::optional(box) : std::nullopt;
}

} // namespace

void addBox(CLI::App& word, std::optional<Box>& box, const std::string& help)
{
    word.add_option_function<std::string>(
            "--box", [&box](const std::string& text) { box = boxFrom(text); }, help)
        ->type_name("X,Y,W,H")
        ->check(CLI::Validator(
            [](std::string& text) {
                return boxFrom(text) ? std::string()
                                     : "'" + text + "' is no box such as 500,120,260,530";
            },
            ""));
}

Outcome<void> needInside(const std::optional<Box>& box, const std::filesystem::path& clip,
                         const ClipFacts& facts)
{
    if (box && (box->u >= facts.width || box->v >= facts.height || box->u + box->width <= 0 ||
                box->v + box->height <= 0)) {
        return fail(Error::Kind::Inconsistent, "The box lies outside the picture of " +
                                                   clip.string() + ", which is " +
                                                   std::to_string(facts.width) + " x " +
                                                   std::to_string(facts.height) + " pixels.");
    }
    return {};
}

} // namespace latemile::batch
