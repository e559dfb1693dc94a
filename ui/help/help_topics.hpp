// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/measure.hpp"

#include <QString>

#include <utility>
#include <vector>

namespace latemile::ui {

class Keys;

/// One entry of the help: a paragraph with a heading each, made from the tables the program itself
/// runs on.
struct HelpTopic {
    QString id; ///< a measure's id, "keys", or a page's id
    QString title;
    const Measure* measure{};                      ///< whose picture stands above the text
    std::vector<std::pair<QString, QString>> rows; ///< heading and text
    const char* picture{};                         ///< a file of the resources, above it too
    QString caption;
    [[nodiscard]] bool holds(const QString& words) const; ///< each of the words, somewhere in it
};

/// How a session goes, the keys as they are now, then every measure in the order of the table.
[[nodiscard]] std::vector<HelpTopic> helpTopics(const Keys& keys);

} // namespace latemile::ui
