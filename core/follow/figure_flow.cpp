// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/figure_flow.hpp"

#include <opencv2/video/tracking.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double comesBack = 0.5; ///< pixels: farther off after going there and back is lost
constexpr double widestSpread = 2.5;
constexpr std::size_t fewestPoints = 5;
constexpr double leastAgreeing = 0.4;

/// How a point of a patch is expected to move: as the landmarks near it are.
cv::Point2d expectedShift(cv::Point2d point, const BodyPatch& patch, const ReducedFigure& figure,
                          const ReducedFigure& guess)
{
    cv::Point2d sum;
    double total = 0.0;
    for (const auto landmark : patch.landmarks) {
        const auto place = placeOf(landmark);
        if (guess[place] && figure[place]) {
            const auto apart = point - *figure[place];
            const double weight = 1.0 / (apart.dot(apart) + 1.0);
            sum += weight * (*guess[place] - *figure[place]);
            total += weight;
        }
    }
    return total > 0.0 ? sum / total : sum;
}

struct Flow {
    std::vector<cv::Point2f> before;
    std::vector<cv::Point2f> after;
    std::vector<bool> cameBack;
};

/// The part of the pictures that holds all points with room for their windows on the smallest
/// level; its sides are whole there too.
cv::Rect neededPart(const Flow& flow, const cv::Mat& picture)
{
    constexpr int grid = 1 << RunnerPictures::levels;
    constexpr int room = (RunnerPictures::halfWindow + 3) * grid;
    cv::Rect2f box(flow.before.front(), cv::Size2f(1, 1));
    for (std::size_t i = 0; i < flow.before.size(); ++i) {
        box |= cv::Rect2f(flow.before[i], cv::Size2f(1, 1));
        box |= cv::Rect2f(flow.after[i], cv::Size2f(1, 1));
    }
    const auto down = [](float value, int by) {
        return static_cast<int>(std::floor((value + static_cast<float>(by)) / grid)) * grid;
    };
    const cv::Point least(down(box.x, -room), down(box.y, -room));
    const cv::Point most(down(box.x + box.width, room + grid),
                         down(box.y + box.height, room + grid));
    return cv::Rect(least, most) &
           cv::Rect(0, 0, picture.cols / grid * grid, picture.rows / grid * grid);
}

RunnerPictures::Pyramid partOf(const RunnerPictures::Pyramid& pyramid, const cv::Rect& part,
                               int levels)
{
    RunnerPictures::Pyramid cut;
    for (int level = 0; level <= levels; ++level) {
        cut.push_back(pyramid[static_cast<std::size_t>(level)](
            cv::Rect(part.x >> level, part.y >> level, part.width >> level, part.height >> level)));
    }
    return cut;
}

std::vector<cv::Point2f> moved(std::vector<cv::Point2f> points, cv::Point2f by)
{
    for (auto& point : points) {
        point += by;
    }
    return points;
}

/// The way back starts where it should end, so the largest picture suffices for it.
void followThereAndBack(const RunnerPictures& pictures, FrameNumber from, FrameNumber to,
                        Search search, Flow& flow)
{
    flow.cameBack.assign(flow.before.size(), false);
    const auto part = neededPart(flow, pictures.picture(from));
    if (part.width < 64 || part.height < 64) {
        return;
    }
    constexpr int backLevels = 0;
    const int levels = search == Search::Wide ? RunnerPictures::levels : RunnerPictures::levels - 1;
    constexpr double leastTexture = 1e-4;
    const cv::Size window(2 * RunnerPictures::halfWindow + 1, 2 * RunnerPictures::halfWindow + 1);
    const cv::TermCriteria stop(cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 12, 0.02);
    const auto here = partOf(pictures.pyramid(from), part, levels);
    const auto there = partOf(pictures.pyramid(to), part, levels);
    const cv::Point2f corner(static_cast<float>(part.x), static_cast<float>(part.y));
    const auto before = moved(flow.before, -corner);
    auto after = moved(flow.after, -corner);
    auto returned = before;
    std::vector<unsigned char> found;
    std::vector<unsigned char> foundBack;
    std::vector<float> unused;
    cv::calcOpticalFlowPyrLK(here, there, before, after, found, unused, window, levels, stop,
                             cv::OPTFLOW_USE_INITIAL_FLOW, leastTexture);
    cv::calcOpticalFlowPyrLK(there, here, after, returned, foundBack, unused, window, backLevels,
                             stop, cv::OPTFLOW_USE_INITIAL_FLOW, leastTexture);
    for (std::size_t i = 0; i < before.size(); ++i) {
        flow.cameBack[i] =
            found[i] && foundBack[i] && cv::norm(returned[i] - before[i]) < comesBack;
    }
    flow.after = moved(std::move(after), corner);
}

std::optional<RigidMove> moveOf(const Flow& flow, std::size_t first, std::size_t count)
{
    std::vector<cv::Point2d> before;
    std::vector<cv::Point2d> after;
    for (std::size_t i = first; i < first + count; ++i) {
        if (flow.cameBack[i]) {
            before.emplace_back(flow.before[i]);
            after.emplace_back(flow.after[i]);
        }
    }
    if (before.size() < fewestPoints) {
        return std::nullopt;
    }
    const auto move = rigidMoveBetween(before, after);
    const bool isGood = move && move->spread < widestSpread && move->agreeing >= leastAgreeing;
    return isGood ? move : std::nullopt;
}

bool looksAsBefore(const BodyPatch& patch, const RigidMove& move, const PartLooks& looks,
                   const cv::Mat& halfSizePicture)
{
    if (!patch.part || !looks[*patch.part]) {
        return true;
    }
    auto carried = patch;
    for (auto& point : carried.points) {
        point = move.carried(point);
    }
    return looksAlike(rigidParts[*patch.part], lookOf(carried, halfSizePicture),
                      *looks[*patch.part]);
}

} // namespace

ReducedFigure reducedFigure(const Figure& figure, const RunnerPictures& pictures)
{
    ReducedFigure reduced;
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (figure[i]) {
            reduced[i] = pictures.reduced(*figure[i]);
        }
    }
    return reduced;
}

double weightOf(const RigidMove& move)
{
    return 1.0 / (move.spread + 0.2);
}

CarriedFigure carriedBy(const FigureMoves& moves, const ReducedFigure& figure)
{
    std::array<double, landmarkCount> total{};
    std::array<cv::Point2d, landmarkCount> sum{};
    CarriedFigure carried;
    for (const auto& [patch, landmarks, move] : moves) {
        const double weight = weightOf(move);
        for (const auto landmark : landmarks) {
            const auto place = placeOf(landmark);
            sum[place] += weight * move.carried(*figure[place]);
            carried.spread[place] += weight * move.spread;
            total[place] += weight;
        }
    }
    for (std::size_t i = 0; i < landmarkCount; ++i) {
        if (total[i] > 0.0) {
            carried.at[i] = sum[i] / total[i];
            carried.spread[i] /= total[i];
        }
    }
    return carried;
}

FigureMoves figureMoves(const RunnerPictures& pictures, FrameNumber from,
                        const ReducedFigure& figure, FrameNumber to, const ReducedFigure& guess,
                        const PartLooks& looks, Search search)
{
    const auto patches = patchesOf(figure, pictures.pixelsPerCm());
    Flow flow;
    for (const auto& patch : patches) {
        for (const auto& point : patch.points) {
            flow.before.emplace_back(point);
            flow.after.emplace_back(point + expectedShift(point, patch, figure, guess));
        }
    }
    if (flow.before.empty()) {
        return {};
    }
    followThereAndBack(pictures, from, to, search, flow);
    FigureMoves moves;
    std::size_t first = 0;
    for (const auto& patch : patches) {
        const auto move = moveOf(flow, first, patch.points.size());
        if (move && looksAsBefore(patch, *move, looks, pictures.pyramid(to)[1])) {
            const auto place =
                patch.part.value_or(rigidParts.size() + placeOf(patch.landmarks.front()));
            moves.push_back({place, patch.landmarks, *move});
        }
        first += patch.points.size();
    }
    return moves;
}

CarriedFigure carryFigure(const RunnerPictures& pictures, FrameNumber from,
                          const ReducedFigure& figure, FrameNumber to, const ReducedFigure& guess,
                          const PartLooks& looks, Search search)
{
    return carriedBy(figureMoves(pictures, from, figure, to, guess, looks, search), figure);
}

PartLooks looksOf(const RunnerPictures& pictures, FrameNumber frame, const ReducedFigure& figure)
{
    PartLooks looks;
    for (std::size_t part = 0; part < rigidParts.size(); ++part) {
        if (const auto patch = patchOf(part, figure, pictures.pixelsPerCm())) {
            looks[part] = lookOf(*patch, pictures.pyramid(frame)[1]);
        }
    }
    return looks;
}

} // namespace latemile
