// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/clip/clip_reader.hpp"
#include "ui/picture/picture_map.hpp"

#include <QImage>
#include <QWidget>

#include <optional>

class QPushButton;

namespace latemile::ui {

class PictureTool;

/// A frame with what is drawn over it. Wheel zooms at the pointer down to single pixels, dragging
/// free ground (or with the middle button) pans, two fingers on a pad pan.
class FrameView final : public QWidget {
    Q_OBJECT
public:
    explicit FrameView(QWidget* parent = nullptr);

    void setFrame(const Frame& frame);
    /// In place of a picture: what is missing and what to do.
    void setMessage(const QString& message);
    /// Below the message a button for the one thing to do; goes with the message.
    void offer(const QString& words);
    /// A small sign that the frame shown is not yet the one asked for.
    void setLate(bool late);
    /// Not owned; must outlive the view or be taken away with nullptr.
    void setTool(PictureTool* tool);
    [[nodiscard]] const PictureMap& map() const { return m_map; }
    [[nodiscard]] FrameNumber frame() const { return m_number; }
    [[nodiscard]] QSize pictureSize() const { return m_image.size(); }

    void fit();
    /// Shows this part of the picture as large as goes in.
    void fitPart(QRectF part);
    /// What of the picture's plane the widget shows now, its surroundings included.
    [[nodiscard]] QRectF partInSight() const;
    void zoomBy(double factor, QPointF at); ///< `at` in logical pixels of the widget
    void zoomBy(double factor);             ///< at the middle

    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 136}; }

signals:
    void offerTaken();
    void mapChanged();
    void movedByHand();              ///< the coach zoomed or panned
    void framePainted(qint64 frame); ///< for measuring how long a key press takes to show

protected:
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    [[nodiscard]] QSizeF deviceSize() const;
    [[nodiscard]] QRect messageRect() const;
    void placeOffer();
    [[nodiscard]] QPointF toDevice(QPointF logical) const;
    void setMap(const PictureMap& map);
    void keepInSight();
    [[nodiscard]] const QImage& layer();
    void paintMessage(QPainter& painter) const;
    void paintLate(QPainter& painter) const;

    QImage m_image;
    QImage m_layer; ///< the picture as it lies on the widget: marks and pointer move over it
    PictureMap m_layerMap;
    qint64 m_layerOf{};
    FrameNumber m_number;
    QString m_message;
    QPushButton* m_offer;
    bool m_late{};
    bool m_fitted{true};
    std::optional<QRectF> m_part; ///< shown as large as goes in, until the coach zooms or pans
    PictureTool* m_tool{};
    PictureMap m_map;
    bool m_dragsTool{};
    std::optional<QPointF> m_pansFrom; ///< device pixels
};

} // namespace latemile::ui
