// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sheet_html.hpp"

#include "core/whole_file.hpp"
#include "ui/sheet/sheet_blocks.hpp"
#include "ui/sheet/still_painter.hpp"
#include "ui/text/words.hpp"

#include <QBuffer>
#include <QImageWriter>
#include <QLocale>
#include <QPainter>
#include <QStringList>

#include <cmath>

namespace latemile::ui {
namespace {

/// Text as it stands on the page: all of it inert.
QString inert(const QString& text)
{
    return text.toHtmlEscaped();
}

QString inert(const std::string& text)
{
    return inert(QString::fromStdString(text));
}

QString element(const char* name, const QString& inside)
{
    return QStringLiteral("<%1>%2</%1>\n").arg(QLatin1String(name), inside);
}

/// Nothing where there is nothing to say.
QString paragraph(const std::string& text)
{
    return text.empty() ? QString() : element("p", inert(text));
}

QString heading(const char* word)
{
    return element("h2", inert(sheetWord(word)));
}

QString styleSheet(const SheetStyle& style)
{
    const SheetInks inks = sheetInks(style);
    return QStringLiteral("body{font-family:'Noto Sans',sans-serif;font-size:%1;line-height:1.45;"
                          "max-width:56rem;margin:2rem auto;padding:0 1rem;color:%2;"
                          "background:#fff}"
                          "h1{font-size:1.6em;margin:0}h2{font-size:1.15em;margin:1.6em 0 .4em}"
                          "p{margin:.4em 0;white-space:pre-line}.quiet{color:%3}"
                          "table{border-collapse:collapse;width:100%}"
                          "caption{text-align:left;color:%3;padding-bottom:.4em}"
                          "th,td{text-align:left;padding:.35em .8em .35em 0;vertical-align:top;"
                          "border-top:1px solid %4}"
                          "td.number{text-align:right;font-variant-numeric:tabular-nums;"
                          "white-space:nowrap}"
                          "thead th{border-top:0}"
                          "thead th:nth-child(n+3):nth-child(-n+5){text-align:right}"
                          ".stills{display:grid;grid-template-columns:repeat(auto-fit,"
                          "minmax(12rem,1fr));gap:1rem}"
                          "figure{margin:0}img{width:100%;height:auto}"
                          "figcaption{font-size:.9em}"
                          ".card{background:%5;padding:.6em 1em;margin:.8em 0}"
                          "dt{font-weight:bold}dd{margin:0 0 .4em}")
        .arg(style.largePrint ? QStringLiteral("1.35rem") : QStringLiteral("1rem"),
             inks.text.name(), inks.quiet.name(), inks.rule.name(), inks.tint.name());
}

QImage paintedStill(const Still& still, const QImage& picture, const SheetStyle& style)
{
    constexpr double wide = 3600.0; // twips: as on paper, so that strokes and letters fit
    constexpr double pixelsPerTwip = 0.2;
    const QRectF rect(0.0, 0.0, wide, wide / stillAspect);
    QImage image(static_cast<int>(std::lround(rect.width() * pixelsPerTwip)),
                 static_cast<int>(std::lround(rect.height() * pixelsPerTwip)),
                 QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(pixelsPerTwip, pixelsPerTwip);
    paintStill(painter, rect, still, picture, style, SheetType(style, 1.0));
    return image;
}

QString dataUri(const QImage& image)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, "png");
    writer.write(image);
    return QStringLiteral("data:image/png;base64,") + QString::fromLatin1(bytes.toBase64());
}

QString conditionOf(const Still& still)
{
    return still.fatigued ? sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fatigued"))
                          : sheetWord(QT_TRANSLATE_NOOP("Sheet", "Fresh"));
}

/// "Fresh, contact: A foot ahead of hip 17.5 cm; ..." what a picture shows to whoever cannot see
/// it.
QString descriptionOf(const Still& still)
{
    QStringList measured;
    for (const StillMeasured& shown : still.measured) {
        const Measure* measure = findMeasure(shown.measure);
        const QString name = measure != nullptr
                                 ? QString::fromUtf8(measure->name.data(),
                                                     static_cast<qsizetype>(measure->name.size()))
                                 : QString::fromStdString(shown.measure);
        measured << (QString::fromStdString(shown.letter) + u' ' + name + u' ' +
                     QString::fromStdString(shown.label))
                        .trimmed();
    }
    const QString what = conditionOf(still) + QStringLiteral(", ") + wordFor(still.instant);
    return measured.isEmpty() ? what
                              : what + QStringLiteral(": ") + measured.join(QStringLiteral("; "));
}

QString figure(const SheetContent& content, std::size_t at, const StillPictures& pictures,
               const SheetStyle& style)
{
    const Still& still = content.stills[at];
    const std::string& minute = still.fatigued ? content.fatiguedMinute : content.freshMinute;
    QString caption = conditionOf(still) + QStringLiteral(", ") + wordFor(still.instant);
    if (!minute.empty()) {
        caption += QStringLiteral(", ") + QString::fromStdString(minute);
    }
    return QStringLiteral("<figure><img alt=\"%1\" src=\"%2\"><figcaption>%3</figcaption></figure>"
                          "\n")
        .arg(inert(descriptionOf(still)), dataUri(paintedStill(still, pictures.images[at], style)),
             inert(caption));
}

QString figures(const SheetContent& content, const StillPictures& pictures, const SheetStyle& style)
{
    QString all;
    for (std::size_t i = 0; i < content.stills.size() && i < pictures.images.size(); ++i) {
        all += figure(content, i, pictures, style);
    }
    return all.isEmpty() ? all : QStringLiteral("<div class=\"stills\">\n%1</div>\n").arg(all);
}

QString headCell(const QString& word)
{
    return QStringLiteral("<th scope=\"col\">%1</th>").arg(inert(word));
}

QString numberCell(const std::string& number)
{
    return QStringLiteral("<td class=\"number\">%1</td>").arg(inert(number));
}

QString tableRow(const SheetRow& row)
{
    const std::string name = row.letter.empty() ? row.name : row.letter + " " + row.name;
    return QStringLiteral("<tr><th scope=\"row\">%1</th><td>%2</td>%3%4%5<td>%6</td></tr>\n")
        .arg(inert(name), inert(row.unit), numberCell(row.fresh), numberCell(row.fatigued),
             numberCell(row.change), inert(capital(wordFor(row.verdict))));
}

QString table(const SheetContent& content)
{
    QString head;
    for (const char* word :
         {QT_TRANSLATE_NOOP("Sheet", "Measure"), QT_TRANSLATE_NOOP("Sheet", "Unit"),
          QT_TRANSLATE_NOOP("Sheet", "Fresh"), QT_TRANSLATE_NOOP("Sheet", "Fatigued"),
          QT_TRANSLATE_NOOP("Sheet", "Change"), QT_TRANSLATE_NOOP("Sheet", "Verdict")}) {
        head += headCell(sheetWord(word));
    }
    QString rows;
    for (const SheetRow& row : content.rows) {
        rows += tableRow(row);
    }
    return QStringLiteral("<table><caption>%1</caption>\n<thead><tr>%2</tr></thead>\n"
                          "<tbody>\n%3</tbody></table>\n")
        .arg(inert(content.errorWords), head, rows);
}

/// What changed and what did not, row by row, with the reason where there is one.
QString findings(const SheetContent& content)
{
    QString items;
    for (const SheetRow& row : content.rows) {
        const std::string told = row.verdict == Verdict::ClearChange ? row.sentence : row.reason;
        if (!told.empty()) {
            items += element("li", inert(row.name) + QStringLiteral(": ") + inert(told));
        }
    }
    return items.isEmpty() ? items
                           : heading(QT_TRANSLATE_NOOP("Sheet", "What changed")) +
                                 element("ul", QLatin1Char('\n') + items);
}

QString definition(const char* word, const std::string& text)
{
    return text.empty() ? QString()
                        : element("dt", inert(sheetWord(word))) + element("dd", inert(text));
}

QString cueCard(const CueText& cue)
{
    return QStringLiteral("<div class=\"card\">\n%1%2<dl>\n%3%4</dl></div>\n")
        .arg(element("h3", inert(cue.think)), paragraph(cue.because),
             definition(QT_TRANSLATE_NOOP("Sheet", "Drill"), cue.drill),
             definition(QT_TRANSLATE_NOOP("Sheet", "Mind"), cue.caution));
}

QString advice(const SheetContent& content)
{
    if (!content.seeClinician.empty()) {
        return heading(QT_TRANSLATE_NOOP("Sheet", "Please see a clinician first")) +
               paragraph(content.seeClinician);
    }
    QString cards;
    for (const CueText& cue : content.cues) {
        cards += cueCard(cue);
    }
    const char* title = content.cues.size() > 1
                            ? QT_TRANSLATE_NOOP("Sheet", "To think of, one at a time")
                            : QT_TRANSLATE_NOOP("Sheet", "To think of");
    return cards.isEmpty() ? cards : heading(title) + cards;
}

QString cautions(const SheetContent& content)
{
    QString text;
    if (!content.note.empty()) {
        text += heading(QT_TRANSLATE_NOOP("Sheet", "From your coach")) + paragraph(content.note);
    }
    text += heading(QT_TRANSLATE_NOOP("Sheet", "Please mind"));
    for (const std::string& caution : content.cautions) {
        text += paragraph(caution);
    }
    return text;
}

QString header(const SheetContent& content)
{
    QStringList facts;
    for (const std::string& fact :
         {content.date, content.speed, content.freshMinute, content.fatiguedMinute}) {
        if (!fact.empty()) {
            facts << inert(fact);
        }
    }
    return element("h1", inert(content.athlete)) +
           element("p", inert(sheetWord(QT_TRANSLATE_NOOP(
                            "Sheet", "Running form, fresh and late in the run")))) +
           element("p", facts.join(QStringLiteral(", ")));
}

QString footer(const SheetContent& content, const SheetStyle& style)
{
    QString who = inert(content.confirmed);
    if (!content.coach.empty()) {
        who += u' ' + inert(sheetWord(QT_TRANSLATE_NOOP("Sheet", "Coach:"))) + u' ' +
               inert(content.coach);
    }
    if (!style.contact.isEmpty()) {
        who += QStringLiteral(", ") + inert(style.contact);
    }
    return QStringLiteral("<footer class=\"quiet\">\n%1</footer>\n")
        .arg(element("p", who) +
             element("p", inert(sheetWord(QT_TRANSLATE_NOOP("Sheet", "Made with Latemile")))));
}

} // namespace

QString sheetHtml(const SheetContent& told, const StillPictures& pictures, const SheetStyle& style)
{
    const SheetContent content = style.inches ? toldIn(told, Lengths::Inches) : told;
    const QString title = sheetWord(QT_TRANSLATE_NOOP("Sheet", "Running form")) +
                          QStringLiteral(", ") + QString::fromStdString(content.date);
    return QStringLiteral("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                          "<meta name=\"viewport\" content=\"width=device-width\">\n"
                          "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src "
                          "'none'; img-src data:; style-src 'unsafe-inline'\">\n") +
           element("title", inert(title)) + element("style", styleSheet(style)) +
           QStringLiteral("</head>\n<body>\n<header>\n") + header(content) +
           QStringLiteral("</header>\n<main>\n") + findings(content) + advice(content) +
           heading(QT_TRANSLATE_NOOP("Sheet", "Fresh and late in the run")) +
           figures(content, pictures, style) + heading(QT_TRANSLATE_NOOP("Sheet", "The numbers")) +
           table(content) + cautions(content) + QStringLiteral("</main>\n") +
           footer(content, style) + QStringLiteral("</body>\n</html>\n");
}

Outcome<void> writeSheetHtml(const SheetContent& content, const StillPictures& pictures,
                             const std::filesystem::path& file, const SheetStyle& style)
{
    return replaceFile(file, sheetHtml(content, pictures, style).toStdString());
}

} // namespace latemile::ui
