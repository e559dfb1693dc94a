// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/film/film_painter.hpp"

#include "ui/sheet/still_painter.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QPainter>

#include <cmath>

namespace latemile::ui {
namespace {

// A side is drawn as a still on paper and shown at so many pixels: strokes and type keep their
// proportions.
constexpr int sideWidth = 720;
constexpr int sideHeight = 960; // sideWidth / stillAspect
constexpr int bandHeight = 96;
constexpr double pixelsPerTwip = 0.2;

QString filmWord(const char* word)
{
    return QCoreApplication::translate("Film", word);
}

/// "Fresh, minute 6"
QString nameOf(const FilmPlan::Side& side)
{
    const QString condition = side.fatigued ? filmWord(QT_TRANSLATE_NOOP("Film", "Fatigued"))
                                            : filmWord(QT_TRANSLATE_NOOP("Film", "Fresh"));
    return side.minute.empty() ? condition
                               : condition + QStringLiteral(", ") + fromUtf8(side.minute);
}

/// "contact, this step alone", or "120 ms after contact · 4 times slower".
QString momentOf(const FilmShot& shot, double slower)
{
    if (shot.stands) {
        return filmWord(QT_TRANSLATE_NOOP("Film", "%1, this step alone"))
            .arg(wordFor(shot.still.instant));
    }
    const double milliseconds = 1000.0 * shot.since.count();
    const QString when = milliseconds < 0.0
                             ? filmWord(QT_TRANSLATE_NOOP("Film", "%1 ms before contact"))
                                   .arg(numberText(-milliseconds, 0))
                             : filmWord(QT_TRANSLATE_NOOP("Film", "%1 ms after contact"))
                                   .arg(numberText(milliseconds, 0));
    return slower > 1.0 ? when + QStringLiteral(" · ") +
                              filmWord(QT_TRANSLATE_NOOP("Film", "%1 times slower"))
                                  .arg(numberText(slower, slower == std::floor(slower) ? 0 : 1))
                        : when;
}

void paintBand(QPainter& painter, const QRectF& rect, const FilmPlan& plan,
               const FilmPlan::Side& side, const FilmShot& shot, const SheetType& type)
{
    const SheetInks inks = sheetInks({});
    const double edge = 6.0 * twipsPerPoint;
    const double name = type.lineHeight(Role::Bold);
    const double moment = type.lineHeight(Role::Small);
    const double sample = 2.2 * type.size(Role::Bold);
    const double top = rect.center().y() - (name + moment) / 2.0;
    paintConditionSample(painter, {rect.left() + edge, top, sample, name}, side.fatigued, inks);
    const double left = rect.left() + 2.0 * edge + sample;
    const double width = rect.right() - edge - left;
    painter.setPen(inks.text);
    paintText(painter, {left, top, width, name}, nameOf(side), type, Role::Bold, Qt::AlignLeft);
    painter.setPen(inks.quiet);
    paintText(painter, {left, top + name, width, moment}, momentOf(shot, plan.slower), type,
              Role::Small, Qt::AlignLeft);
}

} // namespace

QSize filmSize(const FilmPlan& plan)
{
    return {sideWidth * static_cast<int>(plan.sides.size()), sideHeight + bandHeight};
}

QImage filmPicture(const FilmPlan& plan, std::size_t at, const std::vector<QImage>& frames)
{
    static const SheetStyle style;
    const SheetType type(style, 1.0);
    QImage image(filmSize(plan), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(pixelsPerTwip, pixelsPerTwip);
    constexpr double wide = sideWidth / pixelsPerTwip;
    constexpr double band = bandHeight / pixelsPerTwip;
    for (std::size_t i = 0; i < plan.sides.size(); ++i) {
        const FilmPlan::Side& side = plan.sides[i];
        const FilmShot& shot = side.shots[at];
        const double left = static_cast<double>(i) * wide;
        paintStill(painter, {left, band, wide, sideHeight / pixelsPerTwip}, shot.still, frames[i],
                   style, type);
        paintBand(painter, {left, 0.0, wide, band}, plan, side, shot, type);
    }
    return image;
}

} // namespace latemile::ui
