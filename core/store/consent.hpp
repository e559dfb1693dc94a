// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace latemile {

struct Athlete;

/// That a person agreed to be filmed, and to the pictures being kept and shown on a sheet.
struct Consent {
    std::string givenBy; ///< the athlete, or the guardian of a minor
    bool asGuardian{};   ///< `givenBy` speaks for a minor
    std::string date;    ///< ISO 8601: when it was given
    std::string until{}; ///< ISO 8601: the last day it holds; empty: until it is withdrawn
    bool operator==(const Consent&) const = default;
};

/// Why pictures of this athlete must not leave the program on that day, as one sentence for the
/// coach; empty where they may: consent is noted, has begun, has not ended, and was given by a
/// guardian where the athlete is a minor. `today` is ISO 8601.
[[nodiscard]] std::string whyNoConsent(const Athlete& athlete, std::string_view today);

} // namespace latemile
