// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/filming/scene_grips.hpp"
#include "ui/picture/picture_tool.hpp"

#include <QImage>
#include <QObject>

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// The scene's lines over the picture: scale lines, plumb line, ground line and corners, dragged by
/// their ends or moved by keys; a line that is asked for is drawn by pressing at one end and
/// letting go at the other. Beneath them, where wanted, the last visit's picture as a ghost.
class SceneTool final : public QObject, public PictureTool {
    Q_OBJECT
public:
    using QObject::QObject;

    void setClip(ClipDocument* clip);
    /// The next drag on free ground draws this line.
    void draw(std::optional<SceneLine> line);
    [[nodiscard]] std::optional<SceneLine> drawing() const { return m_draws; }
    /// What a new line measures, centimetres.
    void setLengths(SceneLine line, const SideLengths& cm);
    /// Puts the line asked for into the middle of the picture, for those who draw by keys.
    void placeInMiddle();

    /// The point that keys move; goes round.
    void chooseNext();
    void letGo();
    [[nodiscard]] const std::optional<SceneGrip>& chosen() const { return m_chosen; }
    /// Pixels of the picture. Moves in a row are one step back.
    void nudge(double du, double dv);

    /// An empty picture: none. `opacity` 0 to 1.
    void setGhost(const QImage& picture, double opacity);
    [[nodiscard]] bool hasGhost() const { return !m_ghost.isNull(); }

    void paint(QPainter& painter, const PictureMap& map) const override;
    bool press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers keys) override;
    void drag(PixelPoint at) override;
    void release() override;
    void hover(PixelPoint at, const PictureMap& map) override;
    void leave() override { m_pointer.reset(); }
    [[nodiscard]] std::optional<PixelPoint> closeUpAt() const override;
    [[nodiscard]] QString nameAtPointer() const override;

signals:
    void drawn();         ///< the line asked for is there
    void chosenChanged(); ///< also when what is drawn changed: time to paint

private:
    [[nodiscard]] std::optional<SceneGrip> gripAt(PixelPoint at, const PictureMap& map) const;
    void change(const Scene& scene, SceneLine line);
    void paintGhost(QPainter& painter, const PictureMap& map) const;
    void paintLines(QPainter& painter, const PictureMap& map) const;
    void paintCorners(QPainter& painter, const PictureMap& map) const;
    [[nodiscard]] bool isChosenThere() const;

    ClipDocument* m_clip{};
    std::optional<SceneLine> m_draws;
    std::optional<SceneGrip> m_held;
    std::optional<SceneGrip> m_chosen; ///< by keys
    std::optional<PixelPoint> m_pointer;
    std::optional<Scene> m_before; ///< while a new line is drawn: the scene without it
    PixelPoint m_from{};
    SideLengths m_scaleCm{};
    SideLengths m_cornersCm{};
    QImage m_ghost;
    double m_ghostOpacity{0.5};
    int m_gesture{};
};

} // namespace latemile::ui
