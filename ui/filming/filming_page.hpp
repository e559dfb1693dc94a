// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/page/page_context.hpp"

#include <QStringList>
#include <QWidget>

class QLabel;
class QProgressBar;
class QPushButton;

namespace latemile::ui {

class CheckList;
class ClipForm;
class ClipImport;
class FrameView;
class Player;
class SceneTool;
class TransportBar;

/// Clips come in, are described, and get a scene: what turns their pixels into centimetres.
class FilmingPage final : public QWidget {
    Q_OBJECT
public:
    explicit FilmingPage(const PageContext& context, QWidget* parent = nullptr);
    ~FilmingPage() override;

    void addFiles(const QStringList& files);
    [[nodiscard]] FrameView& view() const { return *m_view; }

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    QWidget* buildPicture();
    QWidget* buildSide();
    QWidget* buildImport();
    void connectAll();
    void setClip();
    void tellFacts();
    void addByDialog();
    void removeClip();
    void takeCopied(const QString& belowSession);

    PageContext m_context;
    SceneTool* m_tool;
    Player* m_player;
    ClipImport* m_import;
    FrameView* m_view{};
    TransportBar* m_transport{};
    ClipForm* m_form{};
    CheckList* m_checks{};
    QLabel* m_facts{};
    QLabel* m_hint{};
    QLabel* m_told{};
    QPushButton* m_remove{};
    QProgressBar* m_progress{};
    QPushButton* m_stop{};
};

} // namespace latemile::ui
