// SPDX-License-Identifier: GPL-3.0-or-later
// bench_propose                what a frame and a clip cost beside the bare forward pass of the
//                              network, and memory; `taskset -c 0 bench_propose`: on one core
// bench_propose CLIP [EVERY]   how far proposals lie from the truth of a rendered clip, and events
//                              found from them, before any mark and after one confirmed step; what
//                              the network saw is kept beside the clip for the next time
#include "core/follow/contact_finder.hpp"
#include "core/propose/clip_search.hpp"
#include "core/propose/joined_proposals.hpp"
#include "core/propose/network_file.hpp"
#include "core/propose/network_layers.hpp"
#include "tests/bench/bench_memory.hpp"
#include "tests/bench/propose_misses.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>

using namespace latemile;
using namespace latemile::bench;

namespace {

const std::filesystem::path resources = LATEMILE_SOURCE_DIR "/resources";
const std::string sample = LATEMILE_SOURCE_DIR "/sample_clips/ilse-varga/2026-08-29/clips/late.mp4";

double millisecondsOf(const std::function<void()>& work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

void timeAFrame()
{
    auto clip = need(ClipReader::open(sample));
    const auto picture = need(clip.frame({140})).picture;
    auto network = need(PoseNetwork::open(resources));
    const auto crop = need(findRunner(network, picture, Box{500, 120, 260, 530}));
    const auto bytes = need(readPoseNetwork(resources));
    const FlatBytes file({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
    auto bare = networkFrom(NetworkGraph(file), {"Identity", "Identity_1", "Identity_3"});
    auto input = networkInput(picture, crop);
    const std::array sizes{1, 3, cropPixels, cropPixels};
    bare.setInput(cv::Mat(4, sizes.data(), CV_32F, input.data()));
    std::vector<double> forwards;
    std::vector<double> wholes;
    std::vector<double> crops;
    for (int round = 0; round < 30; ++round) { // in turn, so that both meet the same load
        forwards.push_back(millisecondsOf([&bare] {
            std::vector<cv::Mat> outputs;
            bare.forward(outputs, std::vector<cv::String>{"Identity", "Identity_1", "Identity_3"});
        }));
        wholes.push_back(millisecondsOf([&] { (void)need(network.find(picture, crop)); }));
        crops.push_back(millisecondsOf([&] { (void)networkInput(picture, crop); }));
    }
    std::printf("bare forward        %7.1f ms (median %.1f)\n", quantile(forwards, 0),
                quantile(forwards, 0.5));
    std::printf("crop, forward, read %7.1f ms (median %.1f), of which crop %.1f\n",
                quantile(wholes, 0), quantile(wholes, 0.5), quantile(crops, 0.5));
    std::printf("ratio               %7.3f    (median %.3f)\n",
                quantile(wholes, 0) / quantile(forwards, 0),
                quantile(wholes, 0.5) / quantile(forwards, 0.5));
}

/// Every fourth frame of the sample's clip as the program looks at it, decoding included.
void timeAClip()
{
    const auto index = need(ClipReader::open(sample)).index();
    ClipSearch search{
        .clip = sample, .options = {}, .resources = resources, .frames = {}, .box = {}, .path = {}};
    for (std::int64_t number = 0; number < index.size(); number += 4) {
        search.frames.push_back({number});
    }
    std::size_t found = 0;
    const double ms = millisecondsOf(
        [&] { found = need(searchClipFile(search, [](double) { return true; })).found.size(); });
    std::printf("clip of %.1f s, %zu frames: %.1f s, %.0f ms a frame with decoding and finding the "
                "runner; %.0f MB at most\n",
                index.times().back().count(), found, ms / 1000.0, ms / static_cast<double>(found),
                megabytesOf("self", {"VmHWM:"}));
}

void print(const char* title, const MissesByPart& misses)
{
    std::printf(" %s\n  %-13s %7s %7s %9s %9s\n", title, "", "median", "95 %", "doubtful",
                "in 2 se");
    for (const auto& [part, one] : misses) {
        const auto name = std::string(nameOf(part.side)) + " " + std::string(nameOf(part.landmark));
        std::printf("  %-13s %7.2f %7.2f %9zu %8.1f%%\n", name.c_str(), quantile(one.cm, 0.5),
                    quantile(one.cm, 0.95), one.doubtful, 100.0 * one.within / one.axes);
    }
}

void print(const char* title, const Truth& truth, const Proposals& proposals)
{
    MissesByPart misses;
    add(misses, truth, proposals);
    print(title, misses);
}

void printEvents(const Truth& truth, ClipReader& clip, const Proposals& proposals,
                 const std::map<MarkKey, Mark>& placed)
{
    Marking marking;
    marking.marks = marksOf(proposals);
    marking.marks.insert(placed.begin(), placed.end());
    const auto found = need(findContacts(clip, marking, truth.scene)).stances;
    const auto end = clip.index().times().back();
    for (const auto foot : {truth.nearFoot, otherFoot(truth.nearFoot)}) {
        for (const auto event : {Event::Contact, Event::ToeOff}) {
            const auto misses = missesOf(truth, end, foot, event, found);
            std::printf("  %s, %s foot: %d of %d within 8.4 ms; median %.1f, largest %.1f\n",
                        event == Event::Contact ? "contacts" : "toe-offs",
                        foot == truth.nearFoot ? "near" : "far", misses.withinFrame, misses.all,
                        quantile(misses.ms, 0.5), quantile(misses.ms, 1.0));
        }
    }
}

/// Exact marks tell what proposing adds, clicked ones (eight hands) whether its errors are true.
void measureOneStep(ClipReader& clip, const Truth& truth, const BodyPaths& paths)
{
    const auto exact = oneStep(truth, paths);
    print("one step, network alone", truth, proposalsFrom(paths, exact));
    Marking marking;
    marking.marks = exact;
    const auto follower = need(Follower::open(clip, marking, {}));
    const auto joined = joinedProposals(paths, exact, need(follower.follow(marking)));
    print("one step, joined with following", truth, joined);
    printEvents(truth, clip, joined, exact);
    MissesByPart clicked;
    for (unsigned hand = 2; hand < 10; ++hand) {
        marking.marks = oneStep(truth, paths, 1.0, hand);
        add(clicked, truth, joinedProposals(paths, marking.marks, need(follower.follow(marking))));
    }
    print("the same by eight hands that miss by a click's error", clicked);
}

void measureClip(const std::filesystem::path& file, std::int64_t every)
{
    auto clip = need(ClipReader::open(file));
    const auto truth = truthOf(file, clip);
    std::vector<FrameNumber> frames;
    for (std::int64_t number = 0; number < clip.index().size(); number += every) {
        frames.push_back({number});
    }
    const auto paths = need(bodyPathsFrom(looksAt(clip, file, frames), std::nullopt,
                                          clip.facts().width, clip.facts().height));
    std::printf("%s, %zu frames, cm in the near hip's plane; in 2 se: of those not doubtful\n",
                file.filename().c_str(), paths.frames.size());
    const auto unmarked = proposalsFrom(paths, {});
    print("no mark", truth, unmarked);
    printEvents(truth, clip, unmarked, {});
    measureOneStep(clip, truth, paths);
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 2) {
        timeAFrame();
        timeAClip();
        return 0;
    }
    measureClip(argv[1], argc > 2 ? std::max(1, std::atoi(argv[2])) : 1);
    return 0;
}
