// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/page/labels.hpp"

#include <QFrame>
#include <QStyle>
#include <QVariant>

namespace latemile::ui {
namespace {

QLabel* ranked(const QString& text, const char* rank, QWidget* parent)
{
    QLabel* label = plainLabel(text, parent);
    label->setProperty("rank", rank);
    return label;
}

} // namespace

QLabel* plainLabel(const QString& text, QWidget* parent)
{
    auto* label = new QLabel(parent);
    label->setTextFormat(Qt::PlainText);
    label->setText(text);
    return label;
}

QLabel* titleLabel(const QString& text, QWidget* parent)
{
    return ranked(text, "title", parent);
}

QLabel* headingLabel(const QString& text, QWidget* parent)
{
    return ranked(text, "heading", parent);
}

QLabel* quietLabel(const QString& text, QWidget* parent)
{
    return ranked(text, "quiet", parent);
}

QFrame* rule(QWidget* parent)
{
    auto* line = new QFrame(parent);
    line->setProperty("rank", "rule");
    return line;
}

void setState(QLabel& label, const char* state)
{
    label.setProperty("state", state);
    label.style()->unpolish(&label);
    label.style()->polish(&label);
}

} // namespace latemile::ui
