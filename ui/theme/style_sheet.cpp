// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/style_sheet.hpp"

#include <QList>
#include <QPair>

namespace latemile::ui {
namespace {

constexpr auto rules = R"(
QToolTip { background: @text; color: @paper; border: 0; padding: 4px 8px; }
QLabel[rank="title"] { font-size: 20px; font-weight: 600; }
QLabel[rank="heading"] { font-weight: 600; }
QLabel[rank="small"] { font-size: 12px; color: @quiet; }
QLabel[rank="quiet"] { color: @quiet; }
QLabel[state="good"] { color: @good; }
QLabel[state="doubt"] { color: @doubt; }
QLabel[state="bad"] { color: @bad; }
QLabel[condition="fresh"] { color: @freshText; font-weight: 600; }
QLabel[condition="fatigued"] { color: @fatiguedText; font-weight: 600; }
QPushButton, QToolButton {
    background: @card; color: @text; border: 1px solid @frame; border-radius: 4px;
    padding: 5px 12px; min-height: 18px; }
QToolButton { padding: 5px 8px; }
QPushButton:hover, QToolButton:hover { background: @chosen; }
QPushButton:pressed, QToolButton:pressed { background: @line; }
QPushButton:checked, QToolButton:checked { background: @text; color: @paper; border-color: @text; }
QPushButton:disabled, QToolButton:disabled { color: @proposal; border-color: @line; }
QPushButton[rank="main"] { background: @text; color: @paper; border-color: @text; }
QPushButton[rank="main"]:hover { background: @quiet; }
QPushButton[rank="main"]:disabled { background: @line; color: @quiet; border-color: @line; }
QPushButton:focus, QToolButton:focus { border: 2px solid @text; padding: 4px 11px; }
QToolButton:focus { padding: 4px 7px; }
QToolButton::menu-indicator { image: none; }
QLineEdit, QPlainTextEdit {
    background: @card; color: @text; border: 1px solid @frame; border-radius: 4px;
    padding: 4px 8px; min-height: 20px;
    selection-background-color: @text; selection-color: @paper; }
QPlainTextEdit { padding: 4px; }
QLineEdit:focus, QPlainTextEdit:focus { border: 2px solid @text; padding: 3px 7px; }
QComboBox, QSpinBox, QDoubleSpinBox { min-height: 28px; }
QPlainTextEdit:focus { padding: 3px; }
QLineEdit:disabled { color: @quiet; border-color: @line; }
QListView, QTreeView, QTableView {
    background: @card; color: @text; border: 1px solid @line; border-radius: 4px;
    gridline-color: @line; alternate-background-color: @paper; outline: 0;
    selection-background-color: @chosen; selection-color: @text; }
QListView:focus, QTreeView:focus, QTableView:focus { border: 2px solid @text; }
QListView::item { border: 0; padding: 4px 8px; }
QListView::item:selected { background: @chosen; color: @text; }
QTableView::item { padding: 2px 8px; }
QHeaderView { background: @card; }
QHeaderView::section { background: @card; color: @quiet; border: 0;
    border-bottom: 1px solid @line; padding: 4px 8px; font-weight: 400; }
QHeaderView::section:vertical { border-bottom: 0; }
QTableCornerButton::section { background: @card; border: 0; border-bottom: 1px solid @line; }
QScrollArea, QScrollArea > QWidget > QWidget[rank="page"] { background: transparent; border: 0; }
QScrollBar:vertical { background: transparent; width: 12px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 12px; margin: 0; }
QScrollBar::handle { background: @frame; border-radius: 3px; margin: 3px; min-height: 24px;
    min-width: 24px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QMenuBar { background: @paper; border-bottom: 1px solid @line; padding: 2px 8px; }
QMenuBar::item { padding: 4px 8px; border-radius: 4px; background: transparent; }
QMenuBar::item:selected { background: @chosen; }
QMenu { background: @card; border: 1px solid @frame; padding: 4px; }
QMenu::item { padding: 5px 24px 5px 16px; border-radius: 4px; }
QMenu::item:selected { background: @chosen; color: @text; }
QMenu::item:disabled { color: @proposal; }
QMenu::separator { height: 1px; background: @line; margin: 4px 8px; }
QFrame[rank="rule"] { background: @line; max-height: 1px; min-height: 1px; border: 0; }
QFrame[rank="card"] { background: @card; border: 1px solid @line; border-radius: 6px; }
QFrame[rank="strip"] { background: @card; border: 0; border-top: 2px solid @text; }
QWidget[rank="rail"] { background: @card; border-right: 1px solid @line; }
QPushButton[rank="rail"] { border: 0; border-radius: 4px; padding: 8px 12px; text-align: left;
    background: transparent; }
QPushButton[rank="rail"]:hover { background: @chosen; }
QPushButton[rank="rail"]:checked { background: @chosen; color: @text; font-weight: 600;
    border-left: 3px solid @text; padding-left: 9px; }
QPushButton[rank="rail"]:focus { border: 2px solid @text; padding: 6px 10px; }
QPushButton[rank="rail"]:disabled { color: @proposal; }
QTabWidget::pane { border: 0; border-top: 1px solid @line; }
QTabBar { qproperty-drawBase: 0; }
QTabBar::tab { background: transparent; color: @quiet; border: 0;
    border-bottom: 3px solid transparent; padding: 6px 12px; }
QTabBar::tab:selected { color: @text; font-weight: 600; border-bottom-color: @text; }
QTabBar::tab:hover { color: @text; }
QTabBar:focus { border: 2px solid @text; border-radius: 4px; }
QSplitter::handle { background: transparent; }
)";

} // namespace

QString styleSheetOf(const Tokens& tokens)
{
    QString text = QString::fromLatin1(rules);
    // The longer names first: @freshText begins like no other, but @text ends many.
    const QList<QPair<QString, QColor>> names{{"@fatiguedText", tokens.fatiguedText},
                                              {"@freshText", tokens.freshText},
                                              {"@proposal", tokens.proposal},
                                              {"@chosen", tokens.chosen},
                                              {"@paper", tokens.paper},
                                              {"@frame", tokens.frame},
                                              {"@quiet", tokens.quiet},
                                              {"@doubt", tokens.doubt},
                                              {"@card", tokens.card},
                                              {"@line", tokens.line},
                                              {"@text", tokens.text},
                                              {"@good", tokens.good},
                                              {"@bad", tokens.bad}};
    for (const auto& [name, colour] : names) {
        text.replace(name, colour.name());
    }
    return text;
}

} // namespace latemile::ui
