// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/worker.hpp"
#include "ui/sheet/still_pictures.hpp"

#include <QObject>
#include <QTimer>

#include <optional>

namespace latemile::ui {

class SessionDocument;

/// The sheet of a session as it stands now: content and pictures, made away from the window's
/// thread and again after each edit that rests.
class SheetMaker final : public QObject {
    Q_OBJECT
public:
    explicit SheetMaker(SessionDocument& session, QObject* parent = nullptr);
    ~SheetMaker() override;

    [[nodiscard]] const std::optional<SheetContent>& content() const { return m_content; }
    [[nodiscard]] const StillPictures& pictures() const { return m_pictures; }
    /// Why there is no sheet; empty while there is one or it is being made.
    [[nodiscard]] const QString& fault() const { return m_fault; }
    [[nodiscard]] const std::vector<Cue>& cues() const { return m_cues; }
    void setNameHidden(bool hidden);
    void makeSoon() { m_pause.start(); }

signals:
    void made();

private:
    void follow();
    void make();

    SessionDocument& m_session;
    std::vector<Cue> m_cues;
    bool m_nameHidden{};
    std::optional<SheetContent> m_content;
    StillPictures m_pictures;
    QString m_fault;
    QTimer m_pause;
    int m_order{};
    Worker m_worker; ///< last: ends before what its work names
};

} // namespace latemile::ui
