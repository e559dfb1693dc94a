// SPDX-License-Identifier: GPL-3.0-or-later
// bench_propose                what a frame costs beside the bare forward pass of the network
// bench_propose CLIP [EVERY]   how far proposals lie from the truth of a rendered clip, before any
//                              mark and after one confirmed step
#include "core/clip/clip_reader.hpp"
#include "core/marks/marks_file.hpp"
#include "core/marks/steps.hpp"
#include "core/practice/clip_truth.hpp"
#include "core/propose/network_file.hpp"
#include "core/propose/network_layers.hpp"
#include "core/propose/proposals.hpp"
#include "core/propose/runner_search.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>

using namespace latemile;

namespace {

const std::filesystem::path resources = LATEMILE_SOURCE_DIR "/resources";
const std::string sample = LATEMILE_SOURCE_DIR "/sample_clips/ilse-varga/2026-08-29/clips/late.mp4";

template <class T>
T need(Outcome<T> outcome)
{
    if (!outcome) {
        std::fprintf(stderr, "%s\n", outcome.error().sentence.c_str());
        std::exit(1);
    }
    return *std::move(outcome);
}

double quantile(std::vector<double> values, double share)
{
    if (values.empty()) {
        return 0;
    }
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

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

/// Where the landmarks truly are, both kinds of rendered clip.
struct Truth {
    std::map<MarkKey, PixelPoint> at;
    std::vector<Stance> stances; ///< of the near foot
    double pixelsPerCm{};
};

nlohmann::json truthDocument(const std::filesystem::path& clip)
{
    auto file = clip;
    std::ifstream text(file.replace_extension(".truth.json"));
    return nlohmann::json::parse(text);
}

std::filesystem::path beside(std::filesystem::path clip, const std::string& ending)
{
    return clip.replace_extension(ending);
}

/// A clip of our own maker: all marks of both sides stand beside it.
Truth makersTruth(const std::filesystem::path& clip, const ClipReader& reader)
{
    const auto document = truthDocument(clip);
    Truth truth;
    truth.pixelsPerCm = document.at("scene").at("px_per_cm").get<double>();
    for (const auto& [key, mark] : need(readMarks(beside(clip, ".MARKS.csv"), reader.index(),
                                                  reader.facts().width, reader.facts().height))) {
        truth.at[key] = mark.at;
    }
    const auto near = *footNamed(document.at("runner").at("near_side").get<std::string>());
    for (const auto& stance : need(readContacts(beside(clip, ".CONTACTS.csv"), reader.index()))) {
        if (stance.foot == near) {
            truth.stances.push_back(stance);
        }
    }
    return truth;
}

/// A clip of the sample athlete: near landmarks alone.
Truth athletesTruth(const std::filesystem::path& clip)
{
    const auto read = need(readClipTruth(clip));
    const auto near = *footNamed(truthDocument(clip).at("near_side").get<std::string>());
    Truth truth;
    truth.pixelsPerCm = read.pixelsPerCm;
    for (std::size_t k = 0; k < read.frames.size(); ++k) {
        for (const auto& [landmark, at] : read.frames[k]) {
            truth.at[{{static_cast<std::int64_t>(k)}, BodySide::Near, landmark}] = at;
        }
    }
    for (const auto& event : read.events) {
        if (event.foot == near && !event.isToeOff) {
            Stance stance;
            stance.foot = near;
            stance.contact = event.time;
            truth.stances.push_back(stance);
        } else if (event.foot == near && !truth.stances.empty()) {
            truth.stances.back().toeOff = event.time;
        }
    }
    return truth;
}

/// The marks a coach places for one step: contact, mid-stance, toe-off and mid-swing of the first
/// whole near stride, each on the searched frame nearest to it.
std::map<MarkKey, Mark> oneStep(const Truth& truth, const BodyPaths& paths)
{
    std::map<MarkKey, Mark> marks;
    for (std::size_t k = 0; k + 1 < truth.stances.size(); ++k) {
        const auto& stance = truth.stances[k];
        if (stance.contact < paths.times.front() + Seconds{0.02} || !stance.toeOff) {
            continue;
        }
        const auto next = truth.stances[k + 1].contact;
        for (const auto time :
             {stance.contact + Seconds{0.004}, (stance.contact + *stance.toeOff) / 2,
              *stance.toeOff + Seconds{0.004}, (*stance.toeOff + next) / 2}) {
            const auto nearest = std::min_element(
                paths.times.begin(), paths.times.end(), [time](Seconds a, Seconds b) {
                    return std::chrono::abs(a - time) < std::chrono::abs(b - time);
                });
            const auto frame =
                paths.frames[static_cast<std::size_t>(nearest - paths.times.begin())];
            for (const auto landmark : sideViewLandmarks) {
                const MarkKey key{frame, BodySide::Near, landmark};
                if (const auto at = truth.at.find(key); at != truth.at.end()) {
                    marks[key] = {.at = at->second, .origin = Origin::Placed, .sePx = {}};
                }
            }
        }
        break;
    }
    return marks;
}

void printMisses(const Truth& truth, const Proposals& proposals)
{
    std::printf("  %-9s %7s %7s %9s %8s %9s\n", "near", "median", "95 %", "farthest", "doubtful",
                "in 2 se");
    for (const auto landmark : sideViewLandmarks) {
        std::vector<double> misses;
        double farthest = 0;
        std::size_t doubtful = 0;
        std::size_t within = 0;
        std::size_t axes = 0;
        for (const auto& [key, proposal] : proposals) {
            const auto at = truth.at.find(key);
            if (key.side != BodySide::Near || key.landmark != landmark || at == truth.at.end()) {
                continue;
            }
            const double u = std::abs(proposal.at.u - at->second.u);
            const double v = std::abs(proposal.at.v - at->second.v);
            misses.push_back(std::hypot(u, v) / truth.pixelsPerCm);
            if (proposal.doubt != Doubt::None) {
                ++doubtful;
                continue;
            }
            farthest = std::max(farthest, misses.back());
            within += u <= 2 * proposal.sePx ? 1 : 0;
            within += v <= 2 * proposal.sePx ? 1 : 0;
            axes += 2;
        }
        if (!misses.empty()) {
            std::printf("  %-9s %7.2f %7.2f %9.1f %8zu %8.1f%%\n",
                        std::string(nameOf(landmark)).c_str(), quantile(misses, 0.5),
                        quantile(misses, 0.95), farthest, doubtful,
                        100.0 * static_cast<double>(within) /
                            static_cast<double>(std::max<std::size_t>(axes, 1)));
        }
    }
}

void measureClip(const std::filesystem::path& file, std::int64_t every)
{
    auto clip = need(ClipReader::open(file));
    const auto truth = std::filesystem::exists(beside(file, ".MARKS.csv")) ? makersTruth(file, clip)
                                                                           : athletesTruth(file);
    auto network = need(PoseNetwork::open(resources));
    std::vector<FrameNumber> frames;
    for (std::int64_t number = 0; number < clip.index().size(); number += every) {
        frames.push_back({number});
    }
    const auto read = [&clip](FrameNumber frame) { return clip.frame(frame); };
    const auto found = need(searchClip(read, clip.index(), network, frames, std::nullopt, {}));
    const auto paths =
        need(bodyPathsFrom(found, std::nullopt, clip.facts().width, clip.facts().height));
    std::printf("%s, %zu frames, cm in the near hip's plane; farthest: of those not doubtful\n",
                file.filename().c_str(), paths.frames.size());
    std::printf(" no mark\n");
    printMisses(truth, proposalsFrom(paths, {}));
    std::printf(" one step confirmed\n");
    printMisses(truth, proposalsFrom(paths, oneStep(truth, paths)));
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 2) {
        timeAFrame();
        return 0;
    }
    measureClip(argv[1], argc > 2 ? std::max(1, std::atoi(argv[2])) : 1);
    return 0;
}
