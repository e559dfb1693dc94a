// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Debian 12 and Ubuntu 24.04 differ in the major version of Catch2; tests include this header
// alone.

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>
#endif
