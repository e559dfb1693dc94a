// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scene/camera_moved.hpp"

#include "core/decimal_text.hpp"
#include "core/median.hpp"

#include <opencv2/calib3d.hpp>
#include <opencv2/features2d.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr int mostFeatures = 2500;
constexpr float ratioOfMatches = 0.75F; ///< Lowe 2004, Int. J. Comput. Vision 60:91, section 7.1
constexpr double fitWithin = 2.0;       ///< px of the reduced picture
constexpr int fewestPoints = 20;
constexpr double leastShare = 0.3;
constexpr double leastSpread = 0.25;

struct Features {
    std::vector<cv::KeyPoint> points;
    cv::Mat descriptors;
};

Features featuresOf(const StillBackground& background)
{
    // OpenCV asks for pointers to what it does not change.
    const cv::Mat grey(background.height, background.width, CV_8U,
                       const_cast<std::uint8_t*>(background.grey.data()));
    const cv::Mat still(background.height, background.width, CV_8U,
                        const_cast<std::uint8_t*>(background.still.data()));
    Features features;
    // Bare walls have little contrast: a quarter of the usual threshold.
    const auto finder = cv::SIFT::create(mostFeatures, 3, 0.01);
    finder->detectAndCompute(grey, still, features.points, features.descriptors);
    return features;
}

struct Pairs {
    std::vector<cv::Point2d> first;
    std::vector<cv::Point2d> second;
};

Pairs matched(const Features& first, const Features& second)
{
    Pairs pairs;
    if (first.points.size() < 2 || second.points.size() < 2) {
        return pairs;
    }
    std::vector<std::vector<cv::DMatch>> candidates;
    cv::BFMatcher(cv::NORM_L2).knnMatch(first.descriptors, second.descriptors, candidates, 2);
    for (const auto& two : candidates) {
        if (two.size() == 2 && two[0].distance < ratioOfMatches * two[1].distance) {
            const auto& from = first.points[static_cast<std::size_t>(two[0].queryIdx)].pt;
            const auto& to = second.points[static_cast<std::size_t>(two[0].trainIdx)].pt;
            // OpenCV counts the centre of the first pixel as 0, we as 0.5.
            pairs.first.emplace_back(from.x + 0.5, from.y + 0.5);
            pairs.second.emplace_back(to.x + 0.5, to.y + 0.5);
        }
    }
    return pairs;
}

bool isSpread(const std::vector<cv::Point2d>& points, const StillBackground& picture)
{
    const auto [left, right] = std::minmax_element(
        points.begin(), points.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    const auto [top, bottom] = std::minmax_element(
        points.begin(), points.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
    return right->x - left->x >= leastSpread * picture.width &&
           bottom->y - top->y >= leastSpread * picture.height;
}

/// u' = a u - b v + p, v' = b u + a v + q.
struct Similarity {
    double a{}, b{}, p{}, q{};
    [[nodiscard]] cv::Point2d operator()(const cv::Point2d& at) const
    {
        return {a * at.x - b * at.y + p, b * at.x + a * at.y + q};
    }
};

std::string inNumbers(const CameraMove& move, std::optional<double> cmPerPixel)
{
    std::string text = "shift " + decimalText(move.shiftPx(), 1) + " px";
    if (cmPerPixel) {
        text += " (" + decimalText(move.shiftPx() * *cmPerPixel, 1) + " cm at the runner)";
    }
    return text + ", turn " + decimalText(std::abs(move.rollDegrees), 2) + " degrees, size " +
           decimalText(100.0 * std::abs(move.zoom - 1.0), 2) + " % " +
           (move.zoom >= 1.0 ? "larger" : "smaller");
}

} // namespace

double CameraMove::shiftPx() const
{
    return std::hypot(shift.u, shift.v);
}

PixelPoint CameraMove::carried(PixelPoint first) const
{
    const double turn = rollDegrees * CV_PI / 180.0;
    const double a = zoom * std::cos(turn);
    const double b = zoom * std::sin(turn);
    const double u = first.u - middle.u;
    const double v = first.v - middle.v;
    return {middle.u + shift.u + a * u - b * v, middle.v + shift.v + b * u + a * v};
}

std::optional<CameraMove> cameraMoveBetween(const StillBackground& first,
                                            const StillBackground& second)
{
    if (first.pictureWidth != second.pictureWidth || first.pictureHeight != second.pictureHeight) {
        return std::nullopt;
    }
    const auto pairs = matched(featuresOf(first), featuresOf(second));
    if (pairs.first.size() < fewestPoints) {
        return std::nullopt;
    }
    std::vector<std::uint8_t> fits;
    // RANSAC draws from a generator of its own with a fixed seed: the same clips, the same answer.
    const cv::Mat found = cv::estimateAffinePartial2D(pairs.first, pairs.second, fits, cv::RANSAC,
                                                      fitWithin, 5000, 0.999, 30);
    if (found.empty()) {
        return std::nullopt;
    }
    const Similarity to{found.at<double>(0, 0), found.at<double>(1, 0), found.at<double>(0, 2),
                        found.at<double>(1, 2)};
    std::vector<cv::Point2d> agreeing;
    std::vector<double> off;
    for (std::size_t i = 0; i < fits.size(); ++i) {
        if (fits[i] != 0) {
            agreeing.push_back(pairs.first[i]);
            off.push_back(cv::norm(to(pairs.first[i]) - pairs.second[i]));
        }
    }
    const auto share = static_cast<double>(agreeing.size()) / static_cast<double>(fits.size());
    if (agreeing.size() < fewestPoints || share < leastShare || !isSpread(agreeing, first)) {
        return std::nullopt;
    }
    const double scale = first.reduction();
    const cv::Point2d middle(first.width / 2.0, first.height / 2.0);
    const cv::Point2d shift = to(middle) - middle;
    return CameraMove{.zoom = std::hypot(to.a, to.b),
                      .rollDegrees = std::atan2(to.b, to.a) * 180.0 / CV_PI,
                      .shift = {scale * shift.x, scale * shift.y},
                      .middle = {scale * middle.x, scale * middle.y},
                      .residualPx = scale * upperMedianOf(off),
                      .agreeing = static_cast<int>(agreeing.size()),
                      .matched = static_cast<int>(fits.size())};
}

CameraVerdict judgeCamera(const std::optional<CameraMove>& move, int pictureWidth,
                          std::optional<double> cmPerPixel)
{
    using Stands = CameraVerdict::Stands;
    if (!move) {
        return {Stands::CannotTell, move,
                "The two clips show no common background, or too little of one, to tell whether "
                "the camera stood still: draw this clip's own lines."};
    }
    const double zoom = std::abs(move->zoom - 1.0);
    const double roll = std::abs(move->rollDegrees);
    const double shift = move->shiftPx() / pictureWidth;
    const std::string numbers = inNumbers(*move, cmPerPixel);
    if (zoom <= 0.005 && roll <= 0.25 && shift <= 0.004) {
        return {Stands::Same, move, "The camera stands as it did: " + numbers + "."};
    }
    if (zoom <= 0.02 && roll <= 1.0 && shift <= 0.05) {
        return {Stands::Doubtful, move,
                "The camera was touched a little: " + numbers +
                    ". The lines can be carried along; look at their ends before you trust them."};
    }
    return {Stands::Moved, move,
            "The camera was moved: " + numbers + ". Draw this clip's own lines."};
}

Scene carriedBy(Scene scene, const CameraMove& move)
{
    const auto carry = [&move](PixelPoint& point) { point = move.carried(point); };
    if (scene.scale) {
        carry(scene.scale->a);
        carry(scene.scale->b);
    }
    for (auto& line : scene.moreScales) {
        carry(line.a);
        carry(line.b);
    }
    if (scene.plumb) {
        carry(scene.plumb->top);
        carry(scene.plumb->bottom);
    }
    if (scene.groundV) {
        scene.groundV = move.carried({move.middle.u, *scene.groundV}).v;
    }
    if (scene.plane) {
        std::ranges::for_each(scene.plane->image, carry);
    }
    return scene;
}

} // namespace latemile
