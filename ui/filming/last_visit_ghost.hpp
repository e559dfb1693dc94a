// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/session.hpp"
#include "ui/document/worker.hpp"

#include <QImage>
#include <QObject>

#include <filesystem>

namespace latemile::ui {

/// The first frame of the same clip (condition and view) of the athlete's filming day before, to
/// lay over this visit's picture. Read away from the window's thread.
class LastVisitGhost final : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;

    /// `found` or `missing` follows, unless asked again first.
    void ask(const std::filesystem::path& sessionFolder, const SessionClip& clip);
    void forget();
    [[nodiscard]] const QImage& picture() const { return m_picture; } ///< empty: none
    [[nodiscard]] const QString& date() const { return m_date; }

signals:
    void found();
    void missing(const QString& sentence);

private:
    QImage m_picture;
    QString m_date;
    int m_number{};
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
