// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
#include <string>

// Debian 12 and Ubuntu 24.04 differ in the major version of Catch2; tests include this header
// alone.

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
/// `CHECK_THAT(sentence, containing("line 3"));`
inline auto containing(const std::string& part)
{
    return Catch::Matchers::ContainsSubstring(part);
}
#else
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>
inline auto containing(const std::string& part)
{
    return Catch::Matchers::Contains(part);
}
#endif
