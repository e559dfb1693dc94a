// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/measures/readings.hpp"
#include "core/scene/camera_moved.hpp"
#include "ui/page/page_context.hpp"

#include <QObject>
#include <QPointer>
#include <QString>

#include <deque>
#include <filesystem>
#include <map>
#include <optional>

namespace latemile::ui {

class CameraTest;
class ClipDocument;

/// Lines drawn once, for another clip of the same untouched tripod: finds the clip to take them
/// from (today's last with this view, else the last visit's), lets the backgrounds be compared, and
/// takes the lines over only where the camera stands as it did.
class SceneLoan final : public QObject {
    Q_OBJECT
public:
    explicit SceneLoan(const PageContext& context, QObject* parent = nullptr);

    enum class When { Asked, Added };
    /// Compares, one clip after another; where the test agrees and the clip has no lines of its
    /// own, it gets them as one undoable step. That there is nothing to take is said only when
    /// asked.
    void offer(ClipDocument& clip, When when);
    void stop();
    [[nodiscard]] bool isBusy() const;

    /// What came of it, for the coach; empty where nothing was asked.
    [[nodiscard]] QString sentenceFor(const ClipDocument& clip) const;
    [[nodiscard]] Check::State stateFor(const ClipDocument& clip) const;
    /// Lines of a camera that was touched a little may be carried along, on the coach's word.
    [[nodiscard]] bool canCarry(const ClipDocument& clip) const;
    void carry(ClipDocument& clip);

signals:
    void progress(int percent);
    void changed();

private:
    struct Lender {
        QString name; ///< "the fresh clip", "2026-08-29"
        std::filesystem::path file;
        Scene scene;
    };
    struct Answer {
        Lender lender;
        std::optional<CameraVerdict> verdict;
        QString fault;
        bool taken{};
    };
    [[nodiscard]] std::optional<Lender> lenderFor(const ClipDocument& clip) const;
    void next();
    void take(const CameraVerdict& verdict);
    void giveLines(ClipDocument& clip, const Scene& lines);

    PageContext m_context;
    CameraTest* m_test;
    struct Wish {
        QPointer<ClipDocument> clip;
        When when{};
    };
    std::deque<Wish> m_waiting;
    QPointer<ClipDocument> m_asked;
    std::map<const ClipDocument*, Answer> m_answers;
};

} // namespace latemile::ui
