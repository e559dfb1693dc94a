// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/compare/compare_page.hpp"
#include "ui/window/grab.hpp"

#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QTableView>

using namespace latemile::ui;

namespace {

/// Whether a label's text is wider or higher than what the label may paint on. Its size hints do
/// not tell: a minimum size set by hand, or a fixed height, silences them.
bool isCut(const QLabel& label)
{
    const QRect room = label.contentsRect().adjusted(label.margin(), label.margin(),
                                                     -label.margin(), -label.margin());
    const int flags = (label.wordWrap() ? Qt::TextWordWrap : 0) | Qt::AlignLeft | Qt::AlignTop;
    const QRect text =
        label.fontMetrics().boundingRect(QRect(0, 0, room.width(), 1 << 20), flags, label.text());
    return text.width() > room.width() + 1 || text.height() > room.height() + 2;
}

bool isCut(const QComboBox& box)
{
    QStyleOptionComboBox option;
    option.initFrom(&box);
    option.editable = box.isEditable();
    const QRect room = box.style()->subControlRect(QStyle::CC_ComboBox, &option,
                                                   QStyle::SC_ComboBoxEditField, &box);
    return box.fontMetrics().horizontalAdvance(box.currentText()) > room.width();
}

/// Cells in sight whose text is elided or cut, and headers whose names are.
QStringList cutCellsIn(const QTableView& table)
{
    QStringList cut;
    const QAbstractItemModel* model = table.model();
    const int pad = 2 * 8; // the style sheet's, left and right
    for (int row = 0; model != nullptr && row < model->rowCount(); ++row) {
        for (int column = 0; column < model->columnCount(); ++column) {
            const QModelIndex index = model->index(row, column);
            const QRect box = table.visualRect(index);
            const QString text = index.data().toString();
            if (text.isEmpty() || !table.viewport()->rect().contains(box)) {
                continue;
            }
            const QVariant own = index.data(Qt::FontRole);
            QFont font = table.font();
            font = own.isValid() ? own.value<QFont>().resolve(font) : font;
            const int flags = table.wordWrap() ? Qt::TextWordWrap : Qt::TextSingleLine;
            const QRect wanted =
                QFontMetrics(font).boundingRect(QRect(0, 0, box.width() - pad, 1 << 20),
                                                flags | Qt::AlignLeft | Qt::AlignTop, text);
            if (wanted.width() > box.width() - pad + 1 || wanted.height() > box.height()) {
                cut.append(QStringLiteral("cell \"%1\"").arg(text.left(60)));
            }
        }
    }
    for (int column = 0; model != nullptr && column < model->columnCount(); ++column) {
        const QString text = model->headerData(column, Qt::Horizontal).toString();
        const QHeaderView* header = table.horizontalHeader();
        if (header->isVisible() && !header->isSectionHidden(column) &&
            header->fontMetrics().horizontalAdvance(text) + pad > header->sectionSize(column)) {
            cut.append(QStringLiteral("header \"%1\"").arg(text));
        }
    }
    for (int row = 0; model != nullptr && row < model->rowCount(); ++row) {
        const QString text = model->headerData(row, Qt::Vertical).toString();
        const QHeaderView* header = table.verticalHeader();
        const QRect wanted = header->fontMetrics().boundingRect(QRect(0, 0, 4096, 4096), 0, text);
        if (header->isVisible() && wanted.width() + pad > header->width()) {
            cut.append(QStringLiteral("row \"%1\"").arg(text));
        }
    }
    return cut;
}

QStringList cutCellsIn(const QWidget& page)
{
    QStringList cut;
    for (const QTableView* table : page.findChildren<QTableView*>()) {
        if (table->isVisible()) {
            cut += cutCellsIn(*table);
        }
    }
    return cut;
}

/// Text in labels, closed drop-down lists and table cells that is given less room than it takes.
QStringList cutTextIn(const QWidget& page)
{
    QStringList cut = cutCellsIn(page);
    for (const QLabel* label : page.findChildren<QLabel*>()) {
        if (label->isVisible() && label->textFormat() == Qt::PlainText &&
            !label->text().isEmpty() && isCut(*label)) {
            cut.append(QStringLiteral("label \"%1\"").arg(label->text().left(60)));
        }
    }
    for (const QComboBox* box : page.findChildren<QComboBox*>()) {
        if (box->isVisible() && isCut(*box)) {
            cut.append(QStringLiteral("list \"%1\"").arg(box->currentText()));
        }
    }
    return cut;
}

} // namespace

TEST_CASE("no page cuts text inside a label, a list or a table", "[ui][layout]")
{
    const QSize size = GENERATE(QSize(1280, 800), QSize(1920, 1080));
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    window.resize(size);
    for (const QString& page : allPages()) {
        window.showPage(page);
        settle(window, 6000);
        INFO(page.toStdString() << " at " << size.width() << " x " << size.height());
        CHECK(cutTextIn(window).join(u'\n').toStdString() == "");
    }
}

TEST_CASE("three clips stand beside each other without cut text", "[ui][layout]")
{
    WindowFixture fixture;
    fixture.addLaterVisits();
    MainWindow& window = fixture.openWindow(QStringLiteral("compare"));
    auto& page = dynamic_cast<ComparePage&>(*window.page());
    page.setThirdShown(true);
    settle(window, 6000);
    // A wish for more room would make the window wider than the screen.
    CHECK(window.size() == QSize(1280, 800));
    CHECK(cutTextIn(page).join(u'\n').toStdString() == "");
}
