// SPDX-License-Identifier: GPL-3.0-or-later
// latemile-simulate: thousands of re-markings of a modelled runner whose truth is known, and how
// often the stated intervals hold it. Writes tests/simulation/coverage.md.
#include "core/rounding.hpp"
#include "core/whole_file.hpp"
#include "tests/simulation/coverage_text.hpp"

#include <CLI/CLI.hpp>

#include <iostream>

namespace {

using namespace latemile;
using namespace latemile::simulation;

struct Asked {
    int remarkings{2000};
    std::uint64_t seed{1};
    double rate{120.0};
    std::filesystem::path out;
};

constexpr const char* how =
    "# Coverage of the stated errors\n\n"
    "Written by `latemile-simulate`; how often the stated 95 % intervals hold the truth of a "
    "modelled runner (sample_clips/maker: exact landmarks and events, step-to-step spread), when a "
    "coach marks it again and again.\n\n"
    "Each turn draws a scene by hand (line ends 1 px, tape 0.5 cm, belt 1.5 %) and marks two clips "
    "in it from random places of a run of 40 s, frames at a random phase, each mark off by its "
    "landmark's default error, each event judged to half a frame (a quarter of a frame of it alike "
    "in all of a clip).\n\n"
    "- *coverage*: share of single readings (a step, stride or pair; of the clip where the measure "
    "is one value a clip) whose value ± 1.96 standard errors holds the model's value at the exact "
    "instant. *bias*, *SD of errors* and *stated* (root mean square of the standard errors) are in "
    "the measure's unit.\n"
    "- *coverage of means*: of a clip's mean, with the interval a comparison uses (Student's t for "
    "the steps, 1.96 for what they share), against the mean of the whole run.\n"
    "- *false clear*: verdicts of clear change between the two clips of a turn, between which "
    "nothing changed. *power*: had the second clip's steps all been so many floors more.\n"
    "- Depth, yaw and rolling shutter are bounds of a set-up and no noise: side views run in one "
    "plane, from behind the truth is taken from exact pixels.\n";

Outcome<std::string> studyText(const std::string& title, Study study)
{
    std::cerr << title << " ...\n";
    ASSIGN_OR_RETURN(const auto result, studied(study));
    std::cerr << summaryOf(result) << '\n';
    return "\n## " + title + "\n\n" + summaryOf(result) + "\n\n" + tableOf(result);
}

Outcome<std::string> report(const Asked& asked)
{
    Study study{.runners = sideRunners(),
                .remarkings = asked.remarkings,
                .framesASecond = asked.rate,
                .seed = asked.seed};
    std::string text = how;
    text += "\nCommand: `latemile-simulate --remarkings " + std::to_string(asked.remarkings) +
            " --seed " + std::to_string(asked.seed) + " --rate " + fixedText(asked.rate, 0) +
            " --out tests/simulation/coverage.md`\n";
    const auto rate = fixedText(asked.rate, 0) + " frames/s";
    ASSIGN_OR_RETURN(const auto every,
                     studyText("From the side, every frame marked, " + rate, study));
    study.marked = Marked::FirstFrame;
    ASSIGN_OR_RETURN(
        const auto first,
        studyText("From the side, events marked on their first frame alone, " + rate, study));
    study.marked = Marked::EveryFrame;
    study.runners = rearRunners();
    ASSIGN_OR_RETURN(const auto rear, studyText("From behind, every frame marked, " + rate, study));
    return text + every + first + rear;
}

} // namespace

int main(int argc, char** argv)
{
    Asked asked;
    CLI::App program("How often stated errors hold the truth of a modelled runner");
    program.add_option("--remarkings", asked.remarkings, "Clips marked in each part")
        ->check(CLI::Range(20, 1000000));
    program.add_option("--seed", asked.seed, "Of everything random");
    program.add_option("--rate", asked.rate, "Frames a second")->check(CLI::Range(60.0, 1000.0));
    program.add_option("--out", asked.out, "Where to write the tables; else standard output");
    CLI11_PARSE(program, argc, argv);
    const auto text = report(asked);
    if (!text) {
        std::cerr << text.error().sentence << '\n';
        return 1;
    }
    if (asked.out.empty()) {
        std::cout << *text;
        return 0;
    }
    if (const auto written = replaceFile(asked.out, *text); !written) {
        std::cerr << written.error().sentence << '\n';
        return 1;
    }
    return 0;
}
