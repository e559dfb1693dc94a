// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace latemile {

/// The first call of main() in a program that decodes in workers: where this process was started
/// as one it serves, confined, until the program closes the other end, and does not return.
void serveIfWorker(int argc, const char* const* argv);

} // namespace latemile
