// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/filming/capture_rate_question.hpp"

#include <cmath>

namespace latemile {

bool mayBeSlowMotion(const ClipFacts& facts)
{
    return facts.captureRateFrom == "time stamps" && facts.containerRate < 61.0;
}

std::string cameraSignature(const ClipFacts& facts)
{
    // Rates of one setting differ in the last digits: 29.97, 30.00, 29.86 with dropped frames.
    return facts.camera + (facts.camera.empty() ? "" : " ") + facts.codec + " " +
           std::to_string(facts.width) + "x" + std::to_string(facts.height) + " at " +
           std::to_string(std::lround(facts.containerRate));
}

} // namespace latemile
