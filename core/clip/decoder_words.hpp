// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/libav_owners.hpp"

#include <atomic>

namespace latemile {

/// Set by a decoder that makes up a picture or a part of one. What it makes up hangs on what it
/// decoded before, and some say so in their log and nowhere else, or too late.
using MadeUp = std::atomic<bool>;

/// Keeps libav silent, and from now on sets the flag of a decoder that makes something up. Once a
/// process; any thread.
void listenToDecoders();

/// What this decoder says, also from its own threads, sets `flag`, which must outlive it. Before
/// the decoder is opened.
void tellOf(AVCodecContext& decoder, MadeUp& flag);

} // namespace latemile
