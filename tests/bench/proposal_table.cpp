// SPDX-License-Identifier: GPL-3.0-or-later
// proposal_table FOLDER [WORD]: how far proposals, and the contacts and toe-offs found from them,
// lie from the truth of rendered clips, one row a condition of filming, as tables for the
// documentation. Clips are rendered into FOLDER and what the network saw of them is kept there, for
// the next time: a minute a clip. WORD: only the clips whose name holds it.
#include "core/follow/contact_finder.hpp"
#include "core/propose/clip_search.hpp"
#include "core/propose/joined_proposals.hpp"
#include "core/propose/search_frames.hpp"
#include "sample_clips/maker/render_clip.hpp"
#include "sample_clips/maker/truth_files.hpp"
#include "tests/bench/propose_misses.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace {

using namespace latemile;
using namespace latemile::bench;

struct Row {
    std::string name;
    std::filesystem::path clip;
};

struct Condition {
    const char* name;
    maker::ClipRecipe recipe;
};

maker::ClipRecipe runner(unsigned seed, double speed = 2.7, double stepRate = 168.0,
                         maker::Landing landing = maker::Landing::Rearfoot)
{
    maker::ClipRecipe recipe;
    recipe.runner.seed = seed;
    recipe.runner.speed = speed;
    recipe.runner.stepRate = stepRate;
    recipe.runner.landing = landing;
    recipe.video.duration = 4.0;
    return recipe;
}

template <class Change>
Condition with(const char* name, maker::ClipRecipe recipe, Change change)
{
    change(recipe);
    return {name, recipe};
}

/// Nothing was fitted to these. Each is another runner.
std::vector<Condition> conditions()
{
    using maker::Landing;
    return {
        with("as usual", runner(201), [](auto&) {}),
        with("late in a hard run", runner(202), [](auto& r) { r.runner.fatigue = 1.0; }),
        with("midfoot, 3.0 m/s", runner(203, 3.0, 178.0, Landing::Midfoot), [](auto&) {}),
        with("forefoot, 3.4 m/s", runner(204, 3.4, 184.0, Landing::Forefoot), [](auto&) {}),
        with("2.2 m/s", runner(205, 2.2, 158.0), [](auto&) {}),
        with("from the right", runner(206),
             [](auto& r) { r.camera.view = maker::View::RightSide; }),
        with("185 cm tall", runner(207, 2.9, 164.0), [](auto& r) { r.runner.stature = 185.0; }),
        with("camera rolled 4°", runner(208), [](auto& r) { r.camera.roll = 4.0; }),
        with("exposure of 1 in 125 s", runner(209), [](auto& r) { r.picture.exposure = 0.008; }),
        with("noise of 8 levels", runner(210), [](auto& r) { r.picture.noise = 8.0; }),
        with("1 Mbit a second", runner(211), [](auto& r) { r.video.kilobits = 1000; }),
        with("light falls to 40 %", runner(212), [](auto& r) { r.picture.lightingChange = 0.6; }),
        with("cloth slides 1.5 cm", runner(213), [](auto& r) { r.picture.looseCloth = 1.5; }),
        with("1920 × 1080", runner(214),
             [](auto& r) {
                 r.camera.width = 1920;
                 r.camera.height = 1080;
             }),
        with("60 frames a second", runner(215), [](auto& r) { r.video.captureRate = 60.0; }),
        with("240 frames a second, 3.6 m/s", runner(216, 3.6, 186.0, Landing::Forefoot),
             [](auto& r) { r.video.captureRate = 240.0; }),
        with("hand rail", runner(217), [](auto& r) { r.picture.handrail = true; }),
    };
}

std::filesystem::path rendered(const Condition& condition, const std::filesystem::path& folder)
{
    std::string name = condition.name;
    std::ranges::replace(name, '/', ' '); // of metres a second
    const auto file = folder / (name + ".mp4");
    if (!std::filesystem::exists(file)) {
        const auto truth = need(maker::renderClip(condition.recipe, file));
        if (const auto written = maker::writeBeside(truth, file, maker::MarkFrames::All);
            !written) {
            std::fprintf(stderr, "%s\n", written.error().sentence.c_str());
            std::exit(1);
        }
    }
    return file;
}

/// The sample athlete's clips, by another maker, are copied: what is seen of a clip lies beside it.
std::vector<Row> samplesIn(const std::filesystem::path& folder)
{
    std::vector<Row> rows;
    const std::filesystem::path athlete = LATEMILE_SOURCE_DIR "/sample_clips/ilse-varga";
    int visit = 0;
    for (const auto* day : {"2026-08-29", "2026-09-26", "2026-10-24"}) {
        ++visit;
        for (const std::string condition : {"fresh", "late"}) {
            const auto name = "sample athlete, visit " + std::to_string(visit) + ", " + condition;
            for (const std::string ending : {".mp4", ".truth.json"}) {
                std::filesystem::copy_file(athlete / day / "clips" / (condition + ending),
                                           folder / (name + ending),
                                           std::filesystem::copy_options::skip_existing);
            }
            rows.push_back({name, folder / (name + ".mp4")});
        }
    }
    return rows;
}

struct Column {
    const char* name;
    BodyPart part;
};

constexpr std::array columns{
    Column{"ear", {BodySide::Near, Landmark::Ear}},
    Column{"shoulder", {BodySide::Near, Landmark::Shoulder}},
    Column{"elbow", {BodySide::Near, Landmark::Elbow}},
    Column{"wrist", {BodySide::Near, Landmark::Wrist}},
    Column{"hip", {BodySide::Near, Landmark::Hip}},
    Column{"knee", {BodySide::Near, Landmark::Knee}},
    Column{"ankle", {BodySide::Near, Landmark::Ankle}},
    Column{"heel", {BodySide::Near, Landmark::Heel}},
    Column{"toe", {BodySide::Near, Landmark::Toe}},
    Column{"far heel", {BodySide::Far, Landmark::Heel}},
    Column{"far toe", {BodySide::Far, Landmark::Toe}},
};

/// All that is told of a clip.
struct Told {
    std::string name;
    MissesByPart unmarked;
    MissesByPart oneStep;
    MissesByPart clicked;              ///< one step by eight hands that miss by a click's error
    std::array<EventMisses, 4> events; ///< contacts near, far; toe-offs near, far
    LegsTold legs;                     ///< without a mark
};

Told toldOf(const Row& row)
{
    auto clip = need(ClipReader::open(row.clip));
    const auto truth = truthOf(row.clip, clip);
    const auto found = looksAt(clip, row.clip, framesToSearch(clip.index()));
    const auto paths =
        need(bodyPathsFrom(found, std::nullopt, clip.facts().width, clip.facts().height));
    Told told{
        .name = row.name, .unmarked = {}, .oneStep = {}, .clicked = {}, .events = {}, .legs = {}};
    const auto unmarked = proposalsFrom(paths, {});
    add(told.unmarked, truth, unmarked);
    told.legs = legsTold(truth, unmarked);
    Marking marking;
    marking.marks = marksOf(unmarked);
    const auto stances = need(findContacts(clip, marking, truth.scene)).stances;
    const auto end = clip.index().times().back();
    const auto far = otherFoot(truth.nearFoot);
    told.events = {missesOf(truth, end, truth.nearFoot, Event::Contact, stances),
                   missesOf(truth, end, far, Event::Contact, stances),
                   missesOf(truth, end, truth.nearFoot, Event::ToeOff, stances),
                   missesOf(truth, end, far, Event::ToeOff, stances)};
    Marking exact;
    exact.marks = oneStep(truth, paths);
    const auto follower = need(Follower::open(clip, exact, {}));
    add(told.oneStep, truth, joinedProposals(paths, exact.marks, need(follower.follow(exact))));
    for (unsigned hand = 2; hand < 10; ++hand) {
        exact.marks = oneStep(truth, paths, 1.0, hand);
        add(told.clicked, truth, joinedProposals(paths, exact.marks, need(follower.follow(exact))));
    }
    return told;
}

void printHead(const char* title)
{
    std::printf("\n%s\n| clip |", title);
    for (const auto& column : columns) {
        std::printf(" %s |", column.name);
    }
    std::printf(" in 2 se, %% |\n| --- |");
    for (std::size_t i = 0; i <= columns.size(); ++i) {
        std::printf(" --- |");
    }
    std::printf("\n");
}

void printPlaces(const std::string& name, const MissesByPart& misses)
{
    std::printf("| %s |", name.c_str());
    double within = 0.0;
    double axes = 0.0;
    for (const auto& [part, one] : misses) {
        within += one.within;
        axes += one.axes;
    }
    for (const auto& column : columns) {
        const auto found = misses.find(column.part);
        if (found == misses.end()) {
            std::printf(" |");
            continue;
        }
        std::printf(" %.1f, %.1f |", quantile(found->second.cm, 0.5),
                    quantile(found->second.cm, 0.95));
    }
    std::printf(" %.0f |\n", 100.0 * within / axes);
}

void printEvents(const std::string& name, const std::array<EventMisses, 4>& events)
{
    std::printf("| %s |", name.c_str());
    EventMisses all;
    for (const auto& one : events) {
        std::printf(" %d of %d |", one.withinFrame, one.all);
        all.add(one);
    }
    std::printf(" %.0f, %.0f | %d of %zu |\n", quantile(events[0].ms, 1.0),
                quantile(events[1].ms, 1.0), all.withinTwoErrors, all.ms.size());
}

std::size_t farOffIn(const std::vector<Told>& told, MissesByPart Told::*which)
{
    std::size_t sum = 0;
    for (const auto& one : told) {
        for (const auto& [part, misses] : one.*which) {
            sum += misses.farOff;
        }
    }
    return sum;
}

void print(const std::vector<Told>& told)
{
    printHead("No mark, cm, median and 95th percentile");
    for (const auto& one : told) {
        printPlaces(one.name, one.unmarked);
    }
    printHead("After one step, exactly marked");
    for (const auto& one : told) {
        printPlaces(one.name, one.oneStep);
    }
    printHead("After one step, clicked");
    for (const auto& one : told) {
        printPlaces(one.name, one.clicked);
    }
    std::printf("\nEvents within 8.4 ms, no mark\n| clip | contacts near | far | toe-offs near | "
                "far | largest contact error near, far, ms | in 2 se |\n"
                "| --- | --- | --- | --- | --- | --- | --- |\n");
    std::array<EventMisses, 4> all;
    for (const auto& one : told) {
        printEvents(one.name, one.events);
        for (std::size_t i = 0; i < all.size(); ++i) {
            all[i].add(one.events[i]);
        }
    }
    printEvents("all", all);
    LegsTold legs;
    for (const auto& one : told) {
        legs.frames += one.legs.frames;
        legs.exchanged += one.legs.exchanged;
    }
    std::printf("\nLegs exchanged on %zu of %zu frames. More than 15 cm off and not doubted: %zu "
                "without a mark, %zu after one step.\n",
                legs.exchanged, legs.frames, farOffIn(told, &Told::unmarked),
                farOffIn(told, &Told::oneStep));
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 2) {
        std::fprintf(stderr, "proposal_table FOLDER [WORD]\n");
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    const std::string word = argc > 2 ? argv[2] : "";
    std::filesystem::create_directories(folder);
    std::vector<Told> told;
    for (const auto& row : samplesIn(folder)) {
        if (row.name.find(word) != std::string::npos) {
            told.push_back(toldOf(row));
            std::fprintf(stderr, "%s\n", row.name.c_str());
        }
    }
    for (const auto& condition : conditions()) {
        if (std::string(condition.name).find(word) != std::string::npos) {
            told.push_back(toldOf({condition.name, rendered(condition, folder)}));
            std::fprintf(stderr, "%s\n", condition.name);
        }
    }
    print(told);
    return 0;
}
