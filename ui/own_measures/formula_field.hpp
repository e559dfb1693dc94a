// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPlainTextEdit>

#include <cstddef>
#include <optional>
#include <string>

namespace latemile::ui {

/// Where a formula is written: a few lines that count as one. A fault is underlined from where it
/// begins; words that stand for a point, a formula or a phase are chosen for what comes next.
class FormulaField final : public QPlainTextEdit {
    Q_OBJECT
public:
    explicit FormulaField(QWidget* parent = nullptr);

    [[nodiscard]] std::string formula() const;
    void setFormula(const std::string& formula);
    /// From 1; none: the formula is sound. A fault past the end is shown on the last word.
    void setFault(std::optional<std::size_t> column);
    /// In the place of what is chosen, with spaces where they are wanted; the next stand-in is
    /// chosen then.
    void insertWords(const QString& words);

private:
    void chooseStandIn(int from);
};

} // namespace latemile::ui
