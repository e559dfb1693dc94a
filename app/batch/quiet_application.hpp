// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

class QGuiApplication;

namespace latemile::batch {

/// What painting needs of Qt, without a display and without Qt's notes about this machine's
/// desktop: standard error holds one sentence when something fails.
class QuietApplication {
public:
    QuietApplication();
    ~QuietApplication();
    QuietApplication(const QuietApplication&) = delete;
    QuietApplication& operator=(const QuietApplication&) = delete;

private:
    std::unique_ptr<QGuiApplication> m_application;
};

} // namespace latemile::batch
