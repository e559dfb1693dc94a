// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/place_name.hpp"
#include "ui/marks/box_tool.hpp"
#include "ui/marks/mark_tool.hpp"
#include "ui/page/page_context.hpp"

#include <QWidget>

#include <memory>

class QLabel;

namespace latemile::ui {

class ClipDocument;
class ContactFinding;
class EventRow;
class Following;
class FollowPanel;
class FrameView;
class MarkingFlow;
class Player;
class Proposing;
class StanceRuler;
class StepPanel;
class Thumbnails;
class TransportBar;

/// Marking a clip: the picture, the stance ruler under it and the step table beside it.
class MarksPage final : public QWidget {
    Q_OBJECT
public:
    explicit MarksPage(const PageContext& context, QWidget* parent = nullptr);
    ~MarksPage() override;

    [[nodiscard]] Player& player() const { return *m_player; }
    [[nodiscard]] FrameView& view() const { return *m_view; }
    [[nodiscard]] MarkingFlow& flow() const { return *m_flow; }
    [[nodiscard]] StanceRuler& ruler() const { return *m_ruler; }
    [[nodiscard]] StepPanel& steps() const { return *m_steps; }
    [[nodiscard]] Following& following() const { return *m_following; }
    [[nodiscard]] ContactFinding& contacts() const { return *m_contacts; }
    [[nodiscard]] Proposing& proposing() const { return *m_proposing; }
    [[nodiscard]] FollowPanel& followPanel() const { return *m_followPanel; }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    friend class EventActions;
    friend class MarksActions;
    QWidget* buildPicture();
    void connectAll();
    void connectFollowing();
    void connectProposing();
    void setClip();
    void setPlan();
    void goTo(const StepInstant& place);
    void followPlace();
    void frameMoved();
    /// Why a key did nothing, until something changes.
    void hint(const QString& sentence);
    void tellMarks();
    void tellHint();
    void tellWarning();
    void tellReadings();
    bool arrowPressed(int key, Qt::KeyboardModifiers modifiers);

    PageContext m_context;
    MarkingFlow* m_flow;
    MarkTool m_tool;
    BoxTool m_boxTool;
    Player* m_player;
    Thumbnails* m_thumbnails;
    FrameView* m_view{};
    TransportBar* m_transport{};
    StanceRuler* m_ruler{};
    EventRow* m_events{};
    StepPanel* m_steps{};
    FollowPanel* m_followPanel{};
    Following* m_following{};
    ContactFinding* m_contacts{};
    Proposing* m_proposing{};
    QLabel* m_hint{};
    QLabel* m_running{};
};

} // namespace latemile::ui
