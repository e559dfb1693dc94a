// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/follow/figure_flow.hpp"

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

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

std::optional<RigidMove> moveOf(const std::vector<cv::Point2f>& points, const FoundPoints& found,
                                std::size_t first, std::size_t count)
{
    std::vector<cv::Point2d> before;
    std::vector<cv::Point2d> after;
    for (std::size_t i = first; i < first + count; ++i) {
        if (found.cameBack[i]) {
            before.emplace_back(points[i]);
            after.emplace_back(found.at[i]);
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

const PatchMove* moveOfPart(const FigureMoves& moves, std::size_t patch)
{
    const auto found = std::ranges::find(moves, patch, &PatchMove::patch);
    return found == moves.end() ? nullptr : &*found;
}

/// Toes that go where the foot cannot have taken them are the belt they stood on.
void dropLooseToes(FigureMoves& moves, const ReducedFigure& figure, double pixelsPerCm)
{
    constexpr double mostBend = 2.0; // cm
    constexpr auto toe = placeOf(Landmark::Toe);
    const auto* toes = moveOfPart(moves, rigidParts.size() + toe);
    const auto* foot = moveOfPart(moves, footPart);
    if (!toes || !patchOf(footPart, figure, pixelsPerCm)) {
        return; // or the toe is all that there is of the foot
    }
    if (!foot || cv::norm(toes->move.carried(*figure[toe]) - foot->move.carried(*figure[toe])) >
                     mostBend * pixelsPerCm) {
        std::erase_if(moves,
                      [](const PatchMove& move) { return move.patch == rigidParts.size() + toe; });
    }
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

FigureFlow::FigureFlow(const RunnerPictures& pictures, FrameNumber from,
                       const ReducedFigure& figure, Search search)
    : m_pictures(pictures), m_figure(figure), m_patches(patchesOf(figure, pictures.pixelsPerCm())),
      m_flow(pictures, from, search)
{
    for (const auto& patch : m_patches) {
        m_points.insert(m_points.end(), patch.points.begin(), patch.points.end());
    }
}

FigureMoves FigureFlow::movesTo(FrameNumber to, const ReducedFigure& guess, const PartLooks& looks)
{
    if (m_points.empty()) {
        return {};
    }
    std::vector<cv::Point2f> guesses;
    guesses.reserve(m_points.size());
    for (const auto& patch : m_patches) {
        for (const auto& point : patch.points) {
            guesses.emplace_back(point + expectedShift(point, patch, m_figure, guess));
        }
    }
    const auto found = m_flow.found(m_points, guesses, to);
    FigureMoves moves;
    std::size_t first = 0;
    for (const auto& patch : m_patches) {
        const auto move = moveOf(m_points, found, first, patch.points.size());
        if (move && looksAsBefore(patch, *move, looks, m_pictures.pyramid(to)[1])) {
            const auto place =
                patch.part.value_or(rigidParts.size() + placeOf(patch.landmarks.front()));
            moves.push_back({place, patch.landmarks, *move});
        }
        first += patch.points.size();
    }
    dropLooseToes(moves, m_figure, m_pictures.pixelsPerCm());
    return moves;
}

CarriedFigure carryFigure(const RunnerPictures& pictures, FrameNumber from,
                          const ReducedFigure& figure, FrameNumber to, const ReducedFigure& guess,
                          const PartLooks& looks, Search search)
{
    return carriedBy(FigureFlow(pictures, from, figure, search).movesTo(to, guess, looks), figure);
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
