// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/filming_actions.hpp"

#include "ui/filming/filming_page.hpp"
#include "ui/filming/ghost_controls.hpp"
#include "ui/filming/scene_part.hpp"
#include "ui/filming/scene_tool.hpp"
#include "ui/filming/work_side.hpp"
#include "ui/keys/keys.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/picture/player.hpp"
#include "ui/picture/transport_bar.hpp"

#include <QAction>
#include <QCheckBox>
#include <QKeyEvent>
#include <QPushButton>

#include <functional>

namespace latemile::ui {

FilmingActions::FilmingActions(FilmingPage& page, Keys& keys)
{
    addPictureKeys(page, keys);
    addSceneKeys(page, keys);
}

void FilmingActions::addPictureKeys(FilmingPage& page, Keys& keys)
{
    Player& player = *page.m_player;
    FrameView& view = page.view();
    TransportBar& bar = *page.m_transport;
    const auto key = [&](const char* id, std::function<void()> act) {
        keys.action(id, &page, std::move(act));
    };
    key("picture.play", [&player] { player.isPlaying() ? player.pause() : player.play(1); });
    key("picture.play_back", [&player] { player.isPlaying() ? player.pause() : player.play(-1); });
    key("picture.frame_back", [&player] { player.step(-1); });
    key("picture.frame_on", [&player] { player.step(1); });
    key("picture.slower", [&bar] { bar.setSpeedRow(bar.speedRow() + 1); });
    key("picture.faster", [&bar] { bar.setSpeedRow(bar.speedRow() - 1); });
    key("picture.zoom_in", [&view] { view.zoomBy(1.25); });
    key("picture.zoom_out", [&view] { view.zoomBy(0.8); });
    key("picture.fit", [&view] { view.fit(); });
}

void FilmingActions::addSceneKeys(FilmingPage& page, Keys& keys)
{
    const auto key = [&](const char* id, std::function<void()> act) {
        keys.action(id, &page, std::move(act));
    };
    const auto draw = [&page](SceneLine line) {
        return [&page, line] {
            page.m_side->setPart(FilmingPage::SceneLines);
            page.m_scene->draw(line);
            page.setFocus();
        };
    };
    key("filming.set_up", [&page] {
        if (page.m_setUpButton->isEnabled()) {
            page.m_setUpButton->toggle();
        }
    });
    key("filming.add", [&page] { page.addByDialog(); });
    key("filming.part", [&page] { page.m_side->nextPart(); });
    key("filming.scale", draw(SceneLine::Scale));
    key("filming.plumb", draw(SceneLine::Plumb));
    key("filming.ground", draw(SceneLine::Ground));
    key("filming.corners", draw(SceneLine::Corners));
    SceneTool& tool = page.tool();
    QAction* place = keys.action("filming.place", &page, [&tool] { tool.placeInMiddle(); });
    // In a field, Enter is the field's unless a line waits to be placed.
    const auto tellPlace = [&tool, place] { place->setEnabled(tool.drawing().has_value()); };
    QObject::connect(&tool, &SceneTool::chosenChanged, place, tellPlace);
    QObject::connect(&tool, &SceneTool::drawn, place, tellPlace);
    tellPlace();
    key("filming.next_end", [&page] { page.m_tool->chooseNext(); });
    key("filming.let_go", [&page] { page.m_tool->letGo(); });
    key("filming.ghost", [&page] { page.m_scene->ghost().box().toggle(); });
}

bool FilmingActions::nudge(FilmingPage& page, const QKeyEvent& event)
{
    double pixels = 1.0;
    if (event.modifiers().testFlag(Qt::ShiftModifier)) {
        pixels = 0.1;
    } else if (event.modifiers().testFlag(Qt::ControlModifier)) {
        pixels = 10.0;
    }
    SceneTool& tool = page.tool();
    if (!tool.chosen()) {
        return false;
    }
    switch (event.key()) {
    case Qt::Key_Left:
        tool.nudge(-pixels, 0);
        return true;
    case Qt::Key_Right:
        tool.nudge(pixels, 0);
        return true;
    case Qt::Key_Up:
        tool.nudge(0, -pixels);
        return true;
    case Qt::Key_Down:
        tool.nudge(0, pixels);
        return true;
    default:
        return false;
    }
}

} // namespace latemile::ui
