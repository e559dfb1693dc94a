// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/theme.hpp"

#include "ui/theme/indicator_style.hpp"
#include "ui/theme/style_sheet.hpp"

#include <QApplication>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QPalette>

namespace latemile::ui {

QString nameOf(ThemeChoice choice)
{
    switch (choice) {
    case ThemeChoice::Light:
        return QStringLiteral("light");
    case ThemeChoice::Dark:
        return QStringLiteral("dark");
    case ThemeChoice::System:
        break;
    }
    return QStringLiteral("system");
}

std::optional<ThemeChoice> themeNamed(const QString& word)
{
    for (const auto choice : {ThemeChoice::System, ThemeChoice::Light, ThemeChoice::Dark}) {
        if (nameOf(choice) == word) {
            return choice;
        }
    }
    return std::nullopt;
}

QString familyWithTabularFigures()
{
    const auto hasTabularFigures = [](const QString& family) {
        const QFontMetricsF metrics{QFont(family)};
        const qreal width = metrics.horizontalAdvance(u'0');
        for (char16_t digit = u'1'; digit <= u'9'; ++digit) {
            if (qAbs(metrics.horizontalAdvance(QChar(digit)) - width) > 0.01) {
                return false;
            }
        }
        return true;
    };
    for (const QString family : {"Noto Sans", "Open Sans", "DejaVu Sans"}) {
        if (QFontDatabase::hasFamily(family) && hasTabularFigures(family)) {
            return family;
        }
    }
    return QFontDatabase::systemFont(QFontDatabase::GeneralFont).family();
}

namespace {

QPalette paletteOf(const Tokens& tokens)
{
    QPalette palette;
    palette.setColor(QPalette::Window, tokens.paper);
    palette.setColor(QPalette::WindowText, tokens.text);
    palette.setColor(QPalette::Base, tokens.card);
    palette.setColor(QPalette::AlternateBase, tokens.paper);
    palette.setColor(QPalette::Text, tokens.text);
    palette.setColor(QPalette::PlaceholderText, tokens.quiet);
    palette.setColor(QPalette::Button, tokens.card);
    palette.setColor(QPalette::ButtonText, tokens.text);
    palette.setColor(QPalette::BrightText, tokens.bad);
    palette.setColor(QPalette::Highlight, tokens.chosen);
    palette.setColor(QPalette::HighlightedText, tokens.text);
    palette.setColor(QPalette::Link, tokens.freshText);
    palette.setColor(QPalette::ToolTipBase, tokens.text);
    palette.setColor(QPalette::ToolTipText, tokens.paper);
    palette.setColor(QPalette::Light, tokens.card);
    palette.setColor(QPalette::Mid, tokens.line);
    palette.setColor(QPalette::Dark, tokens.frame);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, tokens.proposal);
    }
    return palette;
}

bool systemIsDark()
{
    // A default palette takes ours away again and lets the desktop's show.
    QApplication::setPalette(QPalette());
    return QApplication::palette().color(QPalette::Window).lightness() < 128;
}

} // namespace

void applyTheme(QApplication& application, ThemeChoice choice)
{
    const bool dark =
        choice == ThemeChoice::Dark || (choice == ThemeChoice::System && systemIsDark());
    const Tokens tokens = dark ? darkTokens() : lightTokens();
    QApplication::setStyle(new IndicatorStyle);
    QApplication::setPalette(paletteOf(tokens));
    QFont font(familyWithTabularFigures());
    font.setPixelSize(bodyText);
    font.setHintingPreference(QFont::PreferNoHinting);
    QApplication::setFont(font);
    application.setStyleSheet(styleSheetOf(tokens));
}

} // namespace latemile::ui
