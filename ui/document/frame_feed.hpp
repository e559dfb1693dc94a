// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/frame_source.hpp"
#include "ui/document/worker.hpp"

#include <QObject>
#include <QPointer>

#include <atomic>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <vector>

namespace latemile::ui {

/// The frames of one clip for everything in the window that shows them. Opens and decodes away from
/// the window's thread; answers come back on it. Of one asker only the newest question counts;
/// small pictures give way to everything else.
class FrameFeed final : public QObject {
    Q_OBJECT
public:
    using Answer = std::function<void(const Frame&)>;

    explicit FrameFeed(QObject* parent = nullptr);
    ~FrameFeed() override;

    /// Begins to open; `opened` or `failed` follows. May be called again with other options.
    void open(const std::filesystem::path& file, const ClipOptions& options);
    /// `failed` follows, unless the clip was open just before.
    void stopOpening();

    [[nodiscard]] bool isOpen() const { return m_source != nullptr; }
    /// True while an answer is on its way.
    [[nodiscard]] bool isBusy() const { return m_waiting || m_waitingSmall; }
    /// Only while open.
    [[nodiscard]] const ClipFacts& facts() const;
    [[nodiscard]] const FrameIndex& index() const;

    /// Answers at once where the frame is held already, else later; never after `asker` is gone.
    void ask(QObject* asker, FrameNumber frame, Answer answer);
    void askSmall(QObject* asker, FrameNumber frame, Answer answer);
    /// Forgets the small pictures nobody has answered yet.
    void dropSmall(QObject* asker);

signals:
    void opening(int percent); ///< while the file's headers are read
    void opened();
    void failed(const QString& sentence);

private:
    struct Question {
        QPointer<QObject> asker;
        FrameNumber frame;
        Answer answer;
    };
    void take(const std::shared_ptr<Outcome<std::unique_ptr<FrameSource>>>& result, int opening);
    void tellOpening(int percent, int opening);
    void askNext();
    void askNextSmall();
    /// Brings an answer of the source's thread to this one.
    [[nodiscard]] FrameSource::Answer brought(void (FrameFeed::*taken)(const Outcome<Frame>&));
    void answered(const Outcome<Frame>& result);
    void answeredSmall(const Outcome<Frame>& result);

    std::vector<Question> m_questions; ///< at most one an asker
    std::deque<Question> m_small;
    Question m_asked;
    bool m_waiting{};
    Question m_askedSmall;
    bool m_waitingSmall{};
    int m_opening{};
    std::shared_ptr<std::atomic<bool>> m_stop; ///< of the opening under way; read on its thread
    std::unique_ptr<FrameSource> m_source;     ///< its end waits: no answer comes after it
    Worker m_opener;
};

} // namespace latemile::ui
