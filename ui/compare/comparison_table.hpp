// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/comparison.hpp"

#include <QAbstractTableModel>
#include <QStringList>

#include <optional>
#include <string>
#include <vector>

namespace latemile::ui {

/// One clip against one or two others, measure by measure: the means, each change with its
/// half-width and its verdict, and all of it in words with the reasons of what was refused.
class ComparisonTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    /// A measure of one foot, or of both, in every comparison.
    struct Row {
        std::string measure;
        std::optional<Foot> foot;
        std::vector<std::optional<ComparisonRow>> against; ///< as the comparisons given
    };
    using QAbstractTableModel::QAbstractTableModel;

    /// `names` of the first clip and of each it is set against; `measures`: ids to show, empty:
    /// all.
    void setComparisons(std::vector<Comparison> comparisons, const QStringList& names,
                        const std::vector<std::string>& measures);
    [[nodiscard]] const std::vector<Row>& rows() const { return m_rows; }
    [[nodiscard]] int wordsColumn() const { return columnCount() - 1; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    /// What a column shows, and of which comparison.
    struct Column {
        enum class Kind { FirstMean, OtherMean, Change, Verdict, Words };
        Kind kind{};
        std::size_t comparison{};
    };
    [[nodiscard]] Column columnAt(int section) const;
    [[nodiscard]] QString cellText(const Row& row, const Column& column) const;
    [[nodiscard]] QString words(const Row& row) const;
    [[nodiscard]] QString rowName(const Row& row) const;

    std::vector<Row> m_rows;
    QStringList m_names;
    OwnMeasures m_own; ///< the coach's own among the rows
};

} // namespace latemile::ui
