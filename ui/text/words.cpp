// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/text/words.hpp"

#include <QCoreApplication>

namespace latemile::ui {
namespace {

QString translated(const char* word)
{
    return QCoreApplication::translate("Words", word);
}

} // namespace

QString wordFor(Landmark landmark)
{
    switch (landmark) {
    case Landmark::Ear:
        return translated(QT_TRANSLATE_NOOP("Words", "ear"));
    case Landmark::Shoulder:
        return translated(QT_TRANSLATE_NOOP("Words", "shoulder"));
    case Landmark::Elbow:
        return translated(QT_TRANSLATE_NOOP("Words", "elbow"));
    case Landmark::Wrist:
        return translated(QT_TRANSLATE_NOOP("Words", "wrist"));
    case Landmark::Hip:
        return translated(QT_TRANSLATE_NOOP("Words", "hip"));
    case Landmark::Knee:
        return translated(QT_TRANSLATE_NOOP("Words", "knee"));
    case Landmark::Ankle:
        return translated(QT_TRANSLATE_NOOP("Words", "ankle"));
    case Landmark::Heel:
        return translated(QT_TRANSLATE_NOOP("Words", "heel"));
    case Landmark::Toe:
        return translated(QT_TRANSLATE_NOOP("Words", "toe"));
    case Landmark::Asis:
        return translated(QT_TRANSLATE_NOOP("Words", "front of pelvis"));
    case Landmark::Psis:
        return translated(QT_TRANSLATE_NOOP("Words", "back of pelvis"));
    case Landmark::HeelTop:
        return translated(QT_TRANSLATE_NOOP("Words", "top of heel"));
    }
    return {};
}

QString wordFor(Foot foot)
{
    return foot == Foot::Left ? translated(QT_TRANSLATE_NOOP("Words", "left"))
                              : translated(QT_TRANSLATE_NOOP("Words", "right"));
}

QString wordFor(Instant instant)
{
    switch (instant) {
    case Instant::Contact:
        return translated(QT_TRANSLATE_NOOP("Words", "contact"));
    case Instant::MidStance:
        return translated(QT_TRANSLATE_NOOP("Words", "mid-stance"));
    case Instant::ToeOff:
        return translated(QT_TRANSLATE_NOOP("Words", "toe-off"));
    case Instant::MidSwing:
        return translated(QT_TRANSLATE_NOOP("Words", "mid-swing"));
    }
    return {};
}

QString wordFor(View view)
{
    switch (view) {
    case View::LeftSide:
        return translated(QT_TRANSLATE_NOOP("Words", "left side"));
    case View::RightSide:
        return translated(QT_TRANSLATE_NOOP("Words", "right side"));
    case View::Rear:
        return translated(QT_TRANSLATE_NOOP("Words", "rear"));
    case View::Front:
        return translated(QT_TRANSLATE_NOOP("Words", "front"));
    }
    return {};
}

QString wordFor(Travel travel)
{
    return travel == Travel::Left ? translated(QT_TRANSLATE_NOOP("Words", "to the left"))
                                  : translated(QT_TRANSLATE_NOOP("Words", "to the right"));
}

QString wordFor(Verdict verdict)
{
    switch (verdict) {
    case Verdict::ClearChange:
        return translated(QT_TRANSLATE_NOOP("Words", "clear change"));
    case Verdict::WithinError:
        return translated(QT_TRANSLATE_NOOP("Words", "within error"));
    case Verdict::TooFewSteps:
        return translated(QT_TRANSLATE_NOOP("Words", "too few steps"));
    case Verdict::NotComparable:
        return translated(QT_TRANSLATE_NOOP("Words", "not comparable"));
    }
    return {};
}

QString signFor(Check::State state)
{
    switch (state) {
    case Check::State::Good:
        return QStringLiteral("✓");
    case Check::State::Doubt:
        return QStringLiteral("?");
    case Check::State::Bad:
        break;
    }
    return QStringLiteral("✗");
}

QString wordFor(Check::State state)
{
    switch (state) {
    case Check::State::Good:
        return translated(QT_TRANSLATE_NOOP("Words", "good"));
    case Check::State::Doubt:
        return translated(QT_TRANSLATE_NOOP("Words", "in doubt"));
    case Check::State::Bad:
        return translated(QT_TRANSLATE_NOOP("Words", "bad"));
    }
    return {};
}

QString wordFor(Origin origin)
{
    switch (origin) {
    case Origin::Placed:
        return translated(QT_TRANSLATE_NOOP("Words", "placed"));
    case Origin::Followed:
        return translated(QT_TRANSLATE_NOOP("Words", "followed"));
    case Origin::Proposed:
        return translated(QT_TRANSLATE_NOOP("Words", "proposed"));
    }
    return {};
}

QString wordForCondition(const std::string& condition)
{
    if (condition == "fresh") {
        return translated(QT_TRANSLATE_NOOP("Words", "fresh"));
    }
    if (condition == "fatigued") {
        return translated(QT_TRANSLATE_NOOP("Words", "fatigued"));
    }
    if (condition == "other") {
        return translated(QT_TRANSLATE_NOOP("Words", "other"));
    }
    return translated(QT_TRANSLATE_NOOP("Words", "no condition yet"));
}

QString capital(const QString& word)
{
    return word.isEmpty() ? word : word.left(1).toUpper() + word.mid(1);
}

QString fromUtf8(std::string_view text)
{
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

} // namespace latemile::ui
