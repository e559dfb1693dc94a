// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_files.hpp"

#include "core/whole_file.hpp"
#include "ui/sheet/sheet_html.hpp"
#include "ui/sheet/sheet_painter.hpp"

#include <QBuffer>
#include <QImageWriter>
#include <QMarginsF>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <cmath>

namespace latemile::ui {
namespace {

QPageSize pageSize(Paper paper)
{
    return QPageSize(paper == Paper::A4 ? QPageSize::A4 : QPageSize::Letter);
}

Error couldNotDraw(const std::filesystem::path& file)
{
    return {Error::Kind::Unsupported,
            "The sheet " + file.filename().string() + " could not be drawn; nothing was written.",
            {}};
}

Outcome<void> replaceBy(const std::filesystem::path& file, const QByteArray& bytes)
{
    return replaceFile(file,
                       std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
}

} // namespace

Outcome<void> writeSheetPdf(const SheetContent& content, const StillPictures& pictures,
                            const std::filesystem::path& file, const SheetStyle& style)
{
    // Into memory first: the PDF writer itself tells nothing of a full disk.
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(static_cast<int>(twipsPerInch));
        writer.setPageSize(pageSize(style.paper));
        writer.setPageMargins(QMarginsF());
        writer.setTitle(QStringLiteral("Running form, ") + QString::fromStdString(content.date));
        writer.setCreator(QStringLiteral("Latemile"));
        QPainter painter;
        if (!painter.begin(&writer)) {
            return tl::unexpected<Error>(couldNotDraw(file));
        }
        paintSheet(painter, QRectF(QPointF(), paperSize(style.paper)), content, pictures, style);
        if (!painter.end()) {
            return tl::unexpected<Error>(couldNotDraw(file));
        }
    }
    return replaceBy(file, bytes);
}

QImage sheetImage(const SheetContent& content, const StillPictures& pictures,
                  const SheetStyle& style, double dotsPerInch)
{
    const QSizeF paper = paperSize(style.paper);
    const auto pixels = [dotsPerInch](double twips) {
        return static_cast<int>(std::lround(twips / twipsPerInch * dotsPerInch));
    };
    QImage image(pixels(paper.width()), pixels(paper.height()), QImage::Format_RGB32);
    image.fill(Qt::white);
    const auto dotsPerMetre = static_cast<int>(std::lround(dotsPerInch / 0.0254));
    image.setDotsPerMeterX(dotsPerMetre);
    image.setDotsPerMeterY(dotsPerMetre);
    QPainter painter(&image);
    paintSheet(painter, image.rect(), content, pictures, style);
    return image;
}

Outcome<void> writeSheetPng(const SheetContent& content, const StillPictures& pictures,
                            const std::filesystem::path& file, const SheetStyle& style)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "png");
    if (!writer.write(sheetImage(content, pictures, style))) {
        return tl::unexpected<Error>(couldNotDraw(file));
    }
    return replaceBy(file, bytes);
}

Outcome<void> writeSheet(const SheetContent& content, const StillPictures& pictures,
                         const std::filesystem::path& file, const SheetStyle& style)
{
    const QString ending = QString::fromStdString(file.extension().string()).toLower();
    if (ending == QStringLiteral(".html")) {
        return writeSheetHtml(content, pictures, file, style);
    }
    return ending == QStringLiteral(".png") ? writeSheetPng(content, pictures, file, style)
                                            : writeSheetPdf(content, pictures, file, style);
}

} // namespace latemile::ui
