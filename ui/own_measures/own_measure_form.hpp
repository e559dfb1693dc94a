// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/own_measures.hpp"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QSpinBox;

namespace latemile::ui {

class FormulaField;

/// One own measure in fields. What the formula gives decides which units there are to choose from.
class OwnMeasureForm final : public QWidget {
    Q_OBJECT
public:
    explicit OwnMeasureForm(QWidget* parent = nullptr);

    [[nodiscard]] OwnMeasure measure() const;
    /// `idFollows`: the id goes with the name, since nothing names it yet.
    void setMeasure(const OwnMeasure& measure, bool idFollows);
    /// A fault or none with its field, and the sentence that stands below the formula.
    void tell(const std::optional<OwnFault>& fault, const QString& sentence);
    [[nodiscard]] QString told() const;
    void beginWithName(); ///< the focus goes there, all of it chosen

    [[nodiscard]] FormulaField& formula() const { return *m_formula; }
    [[nodiscard]] QLineEdit& name() const { return *m_name; }
    [[nodiscard]] QLineEdit& id() const { return *m_id; }

signals:
    void edited();

private:
    void buildFormula(QFormLayout& form);
    void hear();
    void nameEdited();
    void formulaEdited();
    void offerUnits(Unit wanted);
    void fieldEdited();

    QLineEdit* m_name;
    QLineEdit* m_id;
    FormulaField* m_formula;
    QLabel* m_told;
    QComboBox* m_unit;
    QLineEdit* m_positive;
    QDoubleSpinBox* m_floor;
    QSpinBox* m_decimals;
    QComboBox* m_feet;
    QLineEdit* m_meaning;
    bool m_idFollows{};
    bool m_filling{};
};

/// "Knee ahead!" as an id: "knee_ahead". Empty where nothing of the name can be one.
[[nodiscard]] QString idFromName(const QString& name);

} // namespace latemile::ui
