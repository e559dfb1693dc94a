// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/catch.hpp"
#include "tests/ui/window/window_fixture.hpp"
#include "ui/compare/compare_page.hpp"
#include "ui/window/grab.hpp"
#include "ui/window/page_list.hpp"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QAccessibleInterface>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QTableView>

using namespace latemile::ui;

namespace {

QString describe(const QWidget& widget)
{
    QString text = QString::fromLatin1(widget.metaObject()->className());
    if (const auto* label = dynamic_cast<const QLabel*>(&widget)) {
        text += QStringLiteral(" \"%1\"").arg(label->text().left(40));
    } else if (const auto* button = dynamic_cast<const QAbstractButton*>(&widget)) {
        text += QStringLiteral(" \"%1\"").arg(button->text());
    }
    return text;
}

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

/// A label, a button or a closed drop-down list that is not given the room its text takes.
QStringList clippedIn(const QWidget& page)
{
    QStringList clipped;
    for (const QWidget* widget : page.findChildren<QWidget*>()) {
        const auto* label = dynamic_cast<const QLabel*>(widget);
        const auto* button = dynamic_cast<const QAbstractButton*>(widget);
        const auto* box = dynamic_cast<const QComboBox*>(widget);
        if (!widget->isVisible()) {
            continue;
        }
        const bool plain = label != nullptr && label->textFormat() == Qt::PlainText;
        const bool cut = (plain && !label->text().isEmpty() && isCut(*label)) ||
                         (box != nullptr && isCut(*box)) ||
                         (button != nullptr && button->width() < button->minimumSizeHint().width());
        if (cut) {
            clipped.append(describe(*widget));
        }
    }
    return clipped;
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

bool isControl(const QWidget& widget)
{
    return dynamic_cast<const QAbstractButton*>(&widget) != nullptr ||
           dynamic_cast<const QComboBox*>(&widget) != nullptr ||
           (dynamic_cast<const QLabel*>(&widget) != nullptr) ||
           dynamic_cast<const QLineEdit*>(&widget) != nullptr;
}

/// Brothers in one layout that lie over each other.
QStringList overlapsIn(const QWidget& page)
{
    QStringList found;
    for (const QWidget* parent : page.findChildren<QWidget*>()) {
        const auto children = parent->findChildren<QWidget*>(Qt::FindDirectChildrenOnly);
        for (qsizetype a = 0; a < children.size(); ++a) {
            for (qsizetype b = a + 1; b < children.size(); ++b) {
                const bool both = children[a]->isVisible() && children[b]->isVisible() &&
                                  isControl(*children[a]) && isControl(*children[b]);
                if (both && children[a]->geometry().intersects(children[b]->geometry())) {
                    found.append(describe(*children[a]) + " over " + describe(*children[b]));
                }
            }
        }
    }
    return found;
}

/// Controls a screen reader would have no word for.
QStringList namelessIn(const QWidget& page)
{
    QStringList nameless;
    for (QWidget* widget : page.findChildren<QWidget*>()) {
        const bool control = dynamic_cast<QAbstractButton*>(widget) != nullptr ||
                             dynamic_cast<QComboBox*>(widget) != nullptr ||
                             dynamic_cast<QAbstractSpinBox*>(widget) != nullptr ||
                             dynamic_cast<QAbstractItemView*>(widget) != nullptr;
        const bool ofQt = widget->objectName().startsWith(QStringLiteral("qt_"));
        // Parts of a table or of a closed drop-down list belong to what holds them.
        const bool part = dynamic_cast<QAbstractItemView*>(widget->parentWidget()) != nullptr ||
                          dynamic_cast<QHeaderView*>(widget) != nullptr;
        if (!widget->isVisible() || !control || ofQt || part) {
            continue;
        }
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(widget);
        if (face == nullptr || face->text(QAccessible::Name).isEmpty()) {
            nameless.append(describe(*widget));
        }
    }
    return nameless;
}

} // namespace

TEST_CASE("no page clips a label or lays controls over each other", "[ui][layout]")
{
    const QSize size = GENERATE(QSize(1280, 800), QSize(1920, 1080));
    WindowFixture fixture;
    MainWindow& window = fixture.openWindow(QStringLiteral("marks"));
    window.resize(size);
    QStringList pages{QStringLiteral("athletes")};
    for (const PageEntry& entry : pageList()) {
        pages.append(QString::fromLatin1(entry.id));
    }
    for (const QString& page : pages) {
        window.showPage(page);
        settle(window, 6000);
        INFO(page.toStdString() << " at " << size.width() << " x " << size.height());
        REQUIRE(window.size() == size);
        CHECK(clippedIn(window).join(u'\n').toStdString() == "");
        CHECK(cutCellsIn(window).join(u'\n').toStdString() == "");
        CHECK(overlapsIn(window).join(u'\n').toStdString() == "");
        CHECK(namelessIn(window).join(u'\n').toStdString() == "");
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
    CHECK(clippedIn(page).join(u'\n').toStdString() == "");
    CHECK(cutCellsIn(page).join(u'\n').toStdString() == "");
    CHECK(overlapsIn(page).join(u'\n').toStdString() == "");
}
