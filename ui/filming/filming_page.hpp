// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QStringList>
#include <QWidget>

class QLabel;
class QCheckBox;
class QPushButton;
class QStackedWidget;

namespace latemile::ui {

class CheckList;
class ClipDocument;
class ClipForm;
class ClipImport;
class ClipOpening;
class ClipPart;
class FrameView;
class LastVisitGhost;
class Player;
class SceneLoan;
class ScenePart;
class SceneTool;
class SetUpView;
class TransportBar;
class WorkBar;
class WorkSide;

/// Before filming: how to set up. After it: clips come in, are described, and get a scene that
/// turns their pixels into centimetres.
class FilmingPage final : public QWidget {
    Q_OBJECT
public:
    /// Parts of the description, in order.
    enum Part { Clip, Run, SceneLines, Trust };

    explicit FilmingPage(const PageContext& context, QWidget* parent = nullptr);
    ~FilmingPage() override;

    void addFiles(const QStringList& files);
    [[nodiscard]] FrameView& view() const { return *m_view; }
    [[nodiscard]] SceneTool& tool() const { return *m_tool; }
    [[nodiscard]] SetUpView& setUp() const { return *m_setUp; }
    [[nodiscard]] WorkSide& side() const { return *m_side; }
    [[nodiscard]] CheckList& checks() const { return *m_checks; }
    [[nodiscard]] SceneLoan& loan() const { return *m_loan; }
    [[nodiscard]] ClipOpening& opening() const { return *m_opening; }
    [[nodiscard]] LastVisitGhost& ghost() const { return *m_ghost; }
    [[nodiscard]] bool showsSetUp() const;

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    friend class FilmingActions;
    QWidget* buildHead();
    QWidget* buildWork();
    QWidget* buildPicture();
    QWidget* buildSide();
    void connectAll();
    void connectWork();
    void setClip();
    void listenTo(ClipDocument& clip);
    void showSetUp(bool shown);
    void tellSigns();
    void tellFault(const QString& sentence);
    void askGhost();
    void addByDialog();
    void removeClip();
    void stopWork(const QString& id);
    void takeCopied(const QString& belowSession);

    PageContext m_context;
    SceneTool* m_tool;
    Player* m_player;
    ClipImport* m_import;
    SceneLoan* m_loan;
    LastVisitGhost* m_ghost;
    WorkBar* m_work;
    QLabel* m_told;
    QLabel* m_invitation;
    QStackedWidget* m_stack;
    QPushButton* m_setUpButton{};
    QPushButton* m_remove{};
    QCheckBox* m_link{};
    SetUpView* m_setUp{};
    FrameView* m_view{};
    ClipOpening* m_opening{};
    TransportBar* m_transport{};
    WorkSide* m_side{};
    ClipPart* m_clipPart{};
    ClipForm* m_form{};
    ScenePart* m_scene{};
    CheckList* m_checks{};
};

} // namespace latemile::ui
