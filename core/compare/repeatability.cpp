// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/compare/repeatability.hpp"

#include "core/compare/welch.hpp"

#include <boost/math/distributions/fisher_f.hpp>

#include <algorithm>
#include <cmath>

namespace latemile {

namespace {

constexpr double upperTail = 0.975;

double square(double value)
{
    return value * value;
}

double fQuantile(double above, double below)
{
    return boost::math::quantile(boost::math::fisher_f(above, below), upperTail);
}

std::optional<Error> faultOf(const Scores& scores)
{
    const auto unusable = [](const std::string& why) {
        return Error{Error::Kind::Inconsistent, why, {}};
    };
    if (scores.size() < 2 || scores.front().size() < 2) {
        return unusable("Repeatability needs two targets at least, each marked twice at least.");
    }
    for (std::size_t i = 0; i < scores.size(); ++i) {
        if (scores[i].size() != scores.front().size()) {
            return unusable("Target " + std::to_string(i + 1) + " was marked " +
                            std::to_string(scores[i].size()) + " times, the first one " +
                            std::to_string(scores.front().size()) +
                            " times: leave it out or mark it as often.");
        }
        if (!std::ranges::all_of(scores[i], [](double v) { return std::isfinite(v); })) {
            return unusable("Target " + std::to_string(i + 1) + " has a score that is no number.");
        }
    }
    return std::nullopt;
}

double meanOf(const std::vector<double>& values)
{
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

/// Of a ratio F of mean squares: correlation of one marking, and of the mean of k.
double single(double f, double k)
{
    return (f - 1.0) / (f + k - 1.0);
}
double ofMean(double f)
{
    return 1.0 - 1.0 / f;
}

WithInterval fromRatio(double f, double above, double below, double k, bool mean)
{
    const double low = f / fQuantile(above, below);
    const double high = f * fQuantile(below, above);
    return mean ? WithInterval{ofMean(f), ofMean(low), ofMean(high)}
                : WithInterval{single(f, k), single(low, k), single(high, k)};
}

/// ICC(2,1): Shrout & Fleiss 1979, equation for the approximate interval.
WithInterval agreement(const MeanSquares& m)
{
    const double n = m.targets;
    const double k = m.markings;
    const double icc =
        (m.betweenTargets - m.residual) /
        (m.betweenTargets + (k - 1.0) * m.residual + k * (m.betweenMarkings - m.residual) / n);
    const double f = m.betweenMarkings / m.residual;
    const double rest = n * (1.0 + (k - 1.0) * icc) - k * icc;
    const double v = (k - 1.0) * (n - 1.0) * square(k * icc * f + rest) /
                     ((n - 1.0) * square(k * icc * f) + square(rest));
    const double low = fQuantile(n - 1.0, v);
    const double high = fQuantile(v, n - 1.0);
    const double shift = k * m.betweenMarkings + (k * n - k - n) * m.residual;
    return {icc, n * (m.betweenTargets - low * m.residual) / (low * shift + n * m.betweenTargets),
            n * (high * m.betweenTargets - m.residual) / (shift + n * high * m.betweenTargets)};
}

/// Spearman and Brown: the mean of k markings.
double ofMeanOf(double icc, double k)
{
    return k * icc / (1.0 + (k - 1.0) * icc);
}

} // namespace

Outcome<MeanSquares> meanSquaresOf(const Scores& scores)
{
    if (const auto fault = faultOf(scores)) {
        return fail(fault->kind, fault->sentence);
    }
    const double n = static_cast<double>(scores.size());
    const double k = static_cast<double>(scores.front().size());
    std::vector<double> byMarking(scores.front().size(), 0.0);
    std::vector<double> all;
    for (const auto& row : scores) {
        for (std::size_t j = 0; j < row.size(); ++j) {
            byMarking[j] += row[j] / n;
            all.push_back(row[j]);
        }
    }
    const double grand = meanOf(all);
    double targets = 0.0;
    double markings = 0.0;
    double total = 0.0;
    for (const auto& row : scores) {
        targets += k * square(meanOf(row) - grand);
    }
    for (const double mean : byMarking) {
        markings += n * square(mean - grand);
    }
    for (const double score : all) {
        total += square(score - grand);
    }
    // Rounding must not make a sum of squares negative.
    const double within = std::max(total - targets, 0.0);
    const double residual = std::max(within - markings, 0.0);
    return MeanSquares{.targets = static_cast<int>(scores.size()),
                       .markings = static_cast<int>(scores.front().size()),
                       .betweenTargets = targets / (n - 1.0),
                       .betweenMarkings = markings / (k - 1.0),
                       .residual = residual / ((n - 1.0) * (k - 1.0)),
                       .withinTargets = within / (n * (k - 1.0)),
                       .sdAll = std::sqrt(total / (n * k - 1.0))};
}

std::string_view nameOf(Icc kind)
{
    constexpr std::array<std::string_view, 6> names{"ICC(1,1)", "ICC(2,1)", "ICC(3,1)",
                                                    "ICC(1,k)", "ICC(2,k)", "ICC(3,k)"};
    return names[static_cast<std::size_t>(kind)];
}

std::optional<WithInterval> iccOf(Icc kind, const MeanSquares& m)
{
    // Beside this, what is left of a sum of squares is rounding.
    const double least = 1e-12 * square(m.sdAll);
    if (!(m.betweenTargets > least) || !(m.residual > least) || !(m.withinTargets > least)) {
        return std::nullopt;
    }
    const double n = m.targets;
    const double k = m.markings;
    switch (kind) {
    case Icc::OneSingle:
    case Icc::OneMean:
        return fromRatio(m.betweenTargets / m.withinTargets, n - 1.0, n * (k - 1.0), k,
                         kind == Icc::OneMean);
    case Icc::ThreeSingle:
    case Icc::ThreeMean:
        return fromRatio(m.betweenTargets / m.residual, n - 1.0, (n - 1.0) * (k - 1.0), k,
                         kind == Icc::ThreeMean);
    case Icc::TwoSingle:
        return agreement(m);
    case Icc::TwoMean:
        break;
    }
    const auto one = agreement(m);
    return WithInterval{ofMeanOf(one.value, k), ofMeanOf(one.low, k), ofMeanOf(one.high, k)};
}

std::string_view nameOf(Sem kind)
{
    switch (kind) {
    case Sem::Residual:
        return "SEM, constant shift left out (root of the residual)";
    case Sem::WithinTarget:
        return "SEM, constant shift in it (Dahlberg)";
    case Sem::FromIcc21:
        return "SEM from SD and ICC(2,1)";
    case Sem::FromIcc31:
        return "SEM from SD and ICC(3,1)";
    }
    return {};
}

double semOf(Sem kind, const MeanSquares& m)
{
    const auto fromIcc = [&](Icc icc) {
        const auto found = iccOf(icc, m);
        return found ? m.sdAll * std::sqrt(std::max(1.0 - found->value, 0.0)) : 0.0;
    };
    switch (kind) {
    case Sem::Residual:
        return std::sqrt(m.residual);
    case Sem::WithinTarget:
        return std::sqrt(m.withinTargets);
    case Sem::FromIcc21:
        return fromIcc(Icc::TwoSingle);
    case Sem::FromIcc31:
        break;
    }
    return fromIcc(Icc::ThreeSingle);
}

double mdc95(double sem)
{
    return 1.96 * std::sqrt(2.0) * sem;
}

Outcome<Agreement> agreementOf(const std::vector<double>& first, const std::vector<double>& second,
                               double multiple)
{
    if (first.size() != second.size() || first.size() < 3) {
        return fail(Error::Kind::Inconsistent,
                    "Two markings are set against each other pair by pair: three pairs are needed, "
                    "and as many of one as of the other.");
    }
    std::vector<double> differences;
    double squares = 0.0;
    for (std::size_t i = 0; i < first.size(); ++i) {
        differences.push_back(first[i] - second[i]);
        squares += square(differences.back());
    }
    if (!std::isfinite(squares)) {
        return fail(Error::Kind::Inconsistent, "A score is no number: leave its pair out.");
    }
    const double n = static_cast<double>(first.size());
    const double bias = meanOf(differences);
    const double sd = std::sqrt(std::max(squares - n * bias * bias, 0.0) / (n - 1.0));
    const double t = studentQuantile(upperTail, n - 1.0);
    const double ofBias = t * sd / std::sqrt(n);
    const double ofLimit = t * std::sqrt(3.0 / n) * sd; // the paper's standard error of a limit
    const auto around = [](double value, double half) {
        return WithInterval{value, value - half, value + half};
    };
    return Agreement{.n = static_cast<int>(first.size()),
                     .bias = around(bias, ofBias),
                     .sd = sd,
                     .typicalError = sd / std::sqrt(2.0),
                     .sdAboutZero = std::sqrt(squares / n),
                     .withinTargetSd = std::sqrt(squares / n / 2.0),
                     .lowerLimit = around(bias - multiple * sd, ofLimit),
                     .upperLimit = around(bias + multiple * sd, ofLimit)};
}

} // namespace latemile
