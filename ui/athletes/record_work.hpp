// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/long_work.hpp"

#include <filesystem>

class QWidget;

namespace latemile::ui {

class ProgressBox;

/// Hands an athlete's record over as a zip file, or takes one in, behind the window.
class RecordWork final : public LongWork {
    Q_OBJECT
public:
    explicit RecordWork(QWidget* window);

    /// Ask for the file first.
    void askToHandOver(const std::filesystem::path& athleteFolder);
    void askToTakeIn(const std::filesystem::path& library);
    void handOver(const std::filesystem::path& athleteFolder, const std::filesystem::path& zip);
    void takeIn(const std::filesystem::path& zip, const std::filesystem::path& library);

signals:
    void handedOver(const QString& zip);
    void tookIn(const QString& athleteFolder);

private:
    QWidget* m_window;
    ProgressBox* m_box;
};

} // namespace latemile::ui
