// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/filming/set_up_advice.hpp"

#include <QString>
#include <QWidget>

#include <optional>
#include <string>
#include <vector>

class QVBoxLayout;

namespace latemile::ui {

/// A check list: one line an item, with a sign and a sentence; colour is never the only sign.
class RemarkList final : public QWidget {
    Q_OBJECT
public:
    explicit RemarkList(const QString& name, QWidget* parent = nullptr);
    /// A change that would settle one of the remarks: a button below it.
    struct Offer {
        std::string about; ///< the remark's
        QString words;
        bool operator==(const Offer&) const = default;
    };
    void setRemarks(const std::vector<Remark>& remarks, const std::optional<Offer>& offer = {});
    [[nodiscard]] const std::vector<Remark>& remarks() const { return m_remarks; }

signals:
    void offerTaken();

private:
    void addLine(const Remark& remark);
    void addOffer(const Offer& offer);

    std::vector<Remark> m_remarks;
    std::optional<Offer> m_offer;
    QVBoxLayout* m_column;
};

} // namespace latemile::ui
