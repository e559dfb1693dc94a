// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scene/scene.hpp"
#include "ui/picture/picture_tool.hpp"

#include <QObject>

#include <optional>

namespace latemile::ui {

class ClipDocument;

/// The scale line, the plumb line and the ground line, dragged on the picture by their ends; a line
/// that is asked for is drawn by pressing at one end and letting go at the other.
class SceneTool final : public QObject, public PictureTool {
    Q_OBJECT
public:
    enum class Line { Scale, Plumb, Ground };
    using QObject::QObject;

    void setClip(ClipDocument* clip);
    /// The next drag on free ground draws this line.
    void draw(std::optional<Line> line);
    [[nodiscard]] std::optional<Line> drawing() const { return m_draws; }
    /// Length a new scale line is given, centimetres.
    void setLength(double cm) { m_length = cm; }

    void paint(QPainter& painter, const PictureMap& map) const override;
    bool press(PixelPoint at, const PictureMap& map, Qt::KeyboardModifiers keys) override;
    void drag(PixelPoint at) override;
    void release() override;
    void hover(PixelPoint at, const PictureMap& map) override;
    void leave() override { m_pointer.reset(); }
    [[nodiscard]] std::optional<PixelPoint> closeUpAt() const override;
    [[nodiscard]] QString nameAtPointer() const override;

signals:
    void drawn(); ///< the line asked for is there

private:
    struct Held {
        Line line{};
        bool second{}; ///< the scale line's b, the plumb line's bottom
    };
    [[nodiscard]] std::optional<Held> heldAt(PixelPoint at, const PictureMap& map) const;
    void change(const Scene& scene, Line line);
    [[nodiscard]] static QString nameOf(Line line);

    ClipDocument* m_clip{};
    std::optional<Line> m_draws;
    std::optional<Held> m_held;
    std::optional<PixelPoint> m_pointer;
    PixelPoint m_from{};
    double m_length{200.0};
    int m_gesture{};
};

} // namespace latemile::ui
