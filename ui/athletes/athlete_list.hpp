// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/athletes/library.hpp"

#include <QWidget>

#include <filesystem>
#include <vector>

class QComboBox;
class QLineEdit;
class QListWidget;

namespace latemile::ui {

/// The athletes of a library, with a search by name and code, by name, by who is
/// due next, or by whose consent ends first.
class AthleteList final : public QWidget {
    Q_OBJECT
public:
    explicit AthleteList(QWidget* parent = nullptr);

    /// Reads the library anew; who was chosen stays chosen.
    void show(const std::filesystem::path& library);
    void setNamesHidden(bool hidden) { m_namesHidden = hidden; }
    void choose(const std::filesystem::path& folder);
    void clearSearch();
    [[nodiscard]] const AthleteEntry* chosen() const; ///< null: nobody
    [[nodiscard]] bool isEmpty() const { return m_athletes.empty(); }
    /// Name or code, as names are shown or hidden.
    [[nodiscard]] QString nameOf(const Athlete& athlete) const;
    [[nodiscard]] QListWidget& list() const { return *m_list; }
    [[nodiscard]] QLineEdit& search() const { return *m_search; }
    [[nodiscard]] QComboBox& order() const { return *m_order; }

signals:
    void chosenChanged();

private:
    void sort();
    [[nodiscard]] QString lineBelow(const AthleteEntry& entry, QDate today) const;
    void fill();

    std::filesystem::path m_library;
    std::vector<AthleteEntry> m_athletes;
    bool m_namesHidden{};
    QLineEdit* m_search;
    QComboBox* m_order;
    QListWidget* m_list;
};

} // namespace latemile::ui
