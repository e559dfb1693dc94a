// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/clip_words.hpp"

#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace latemile::ui {
namespace {

struct ClipWords {
    Q_DECLARE_TR_FUNCTIONS(ClipWords)
};

QString pictureText(const ClipFacts& facts)
{
    QString text = ClipWords::tr("%1 × %2 pixels").arg(facts.width).arg(facts.height);
    if (facts.rotationDegrees != 0) {
        text += ClipWords::tr(", turned upright");
    }
    if (facts.mirrored) {
        text += ClipWords::tr(", mirrored by the file");
    }
    return text;
}

QString timeSourceText(const ClipFacts& facts)
{
    if (facts.captureRateFrom == "time stamps") {
        return ClipWords::tr("from the file's own time stamps");
    }
    if (facts.captureRateFrom == "stated") {
        return ClipWords::tr("as you said");
    }
    return ClipWords::tr("as the camera noted in the file");
}

QString rateText(const ClipFacts& facts)
{
    QString text = ClipWords::tr("%1 frames a real second, %2")
                       .arg(numberText(facts.captureRate, 1), timeSourceText(facts));
    if (facts.slowMotion > 1.02) {
        text += ClipWords::tr("; it plays %1 times slower than it happened")
                    .arg(numberText(facts.slowMotion, 1));
    }
    return text;
}

} // namespace

QString breakable(QString text)
{
    constexpr QChar breaks(0x200b);
    constexpr int longest = 24; // characters a narrow column has room for
    int run = 0;
    for (qsizetype at = 0; at < text.size(); ++at) {
        run = text[at].isSpace() ? 0 : run + 1;
        if (run == longest) {
            text.insert(++at, breaks);
            run = 0;
        }
    }
    return text;
}

QString factsText(const QString& file, const ClipFacts& facts)
{
    QStringList lines{
        breakable(file), pictureText(facts),
        ClipWords::tr("%1 of running, %2 frames").arg(timeText(facts.duration)).arg(facts.frames),
        rateText(facts)};
    if (!facts.camera.empty()) {
        lines.append(ClipWords::tr("Camera: %1").arg(fromUtf8(facts.camera)));
    }
    return lines.join(u'\n');
}

} // namespace latemile::ui
