// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/compare/repeat_result.hpp"
#include "ui/document/selection.hpp"
#include "ui/practice/repeat_copy.hpp"

#include <QPointer>
#include <QWidget>

#include <memory>
#include <optional>

class QLabel;
class QPushButton;
class QUndoStack;
class QVBoxLayout;

namespace latemile::ui {

class Keys;
class MarksPage;
class RepeatView;

/// A coach marks instants of a clip a second time without seeing the first marks, in random order;
/// what the two markings differ by becomes this coach's own error of a click. Or a second coach's
/// marks of the clip, from a file, are set against the first.
class RepeatPage final : public QWidget {
    Q_OBJECT
public:
    /// `clip` belongs to `session` and is open; both outlive the page.
    RepeatPage(SessionDocument& session, ClipDocument& clip, Keys& keys, QWidget* parent = nullptr);
    ~RepeatPage() override;

    /// Null where nothing could be asked, and once the result is shown.
    [[nodiscard]] QUndoStack* history() const;
    [[nodiscard]] MarksPage* marks() const;
    [[nodiscard]] RepeatView& view() const { return *m_view; }
    [[nodiscard]] const std::vector<RepeatCell>& plan() const;
    [[nodiscard]] QString told() const;
    [[nodiscard]] const std::optional<RepeatResult>& result() const { return m_result; }

    void finish(); ///< sets what was marked again against the first marks
    void keep();   ///< as this coach's own errors
    void compareWith(const std::filesystem::path& marksFile);

signals:
    void left();

private:
    QWidget* buildHead();
    void start();
    void tellProgress();
    void show(const Marking& second, bool isOwn);
    void tell(const QString& sentence, const char* state);
    void chooseFile();

    SessionDocument& m_session;
    ClipDocument& m_clip;
    Keys& m_keys;
    Selection m_selection;
    std::unique_ptr<RepeatCopy> m_copy;
    std::optional<RepeatResult> m_result;
    QPointer<MarksPage> m_marks;
    QVBoxLayout* m_column;
    RepeatView* m_view{};
    QLabel* m_told{};
    QPushButton* m_finish{};
    QPushButton* m_keep{};
};

} // namespace latemile::ui
