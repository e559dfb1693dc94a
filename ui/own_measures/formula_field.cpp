// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own_measures/formula_field.hpp"

#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QRegularExpression>
#include <QTextBlock>

#include <algorithm>

namespace latemile::ui {
namespace {

constexpr int linesShown = 3;

/// From its first letter to the next space.
int endOfWord(const QString& text, int from)
{
    const auto space = text.indexOf(u' ', from + 1);
    return space < 0 ? static_cast<int>(text.size()) : static_cast<int>(space);
}

} // namespace

FormulaField::FormulaField(QWidget* parent) : QPlainTextEdit(parent)
{
    setTabChangesFocus(true);
    setAccessibleName(tr("Formula"));
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFixedHeight(linesShown * fontMetrics().lineSpacing() + 3 * gridStep);
}

std::string FormulaField::formula() const
{
    return toPlainText().replace(u'\n', u' ').toStdString();
}

void FormulaField::setFormula(const std::string& formula)
{
    setPlainText(fromUtf8(formula));
}

void FormulaField::setFault(std::optional<std::size_t> column)
{
    QList<QTextEdit::ExtraSelection> marked;
    const QString text = toPlainText();
    if (column && !text.isEmpty()) {
        // All that stands before a fault is ASCII, so that bytes are letters.
        int from = static_cast<int>(*column) - 1;
        if (from >= text.size()) {
            from = static_cast<int>(text.lastIndexOf(u' ', -2)) + 1;
        }
        QTextEdit::ExtraSelection fault;
        fault.cursor = QTextCursor(document());
        fault.cursor.setPosition(from);
        fault.cursor.setPosition(endOfWord(text, from), QTextCursor::KeepAnchor);
        fault.format.setUnderlineStyle(QTextCharFormat::WaveUnderline);
        fault.format.setUnderlineColor(tokensOf(palette()).bad);
        marked.append(fault);
    }
    setExtraSelections(marked);
}

void FormulaField::insertWords(const QString& words)
{
    QTextCursor cursor = textCursor();
    const QString text = toPlainText();
    const int from = cursor.selectionStart();
    const int end = cursor.selectionEnd();
    const auto wantsSpace = [&text](int at) {
        return at >= 0 && at < text.size() && !text[at].isSpace() && text[at] != u'(' &&
               text[at] != u')';
    };
    const QString before = wantsSpace(from - 1) ? QStringLiteral(" ") : QString();
    const QString after = wantsSpace(end) ? QStringLiteral(" ") : QString();
    cursor.insertText(before + words + after);
    setTextCursor(cursor);
    chooseStandIn(from);
    setFocus();
}

/// Leaves the cursor where it is where none is left.
void FormulaField::chooseStandIn(int from)
{
    static const QRegularExpression standIn(QStringLiteral("\\b(POINT|FORMULA|PHASE)\\b"));
    const auto found = standIn.match(toPlainText(), from);
    if (!found.hasMatch()) {
        return;
    }
    QTextCursor cursor = textCursor();
    cursor.setPosition(static_cast<int>(found.capturedStart()));
    cursor.setPosition(static_cast<int>(found.capturedEnd()), QTextCursor::KeepAnchor);
    setTextCursor(cursor);
}

} // namespace latemile::ui
