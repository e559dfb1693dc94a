// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/keys/key_table.hpp"

#include <QtGlobal>

#include <array>

namespace latemile::ui {
namespace {

#define EVERYWHERE QT_TRANSLATE_NOOP("Keys", "Everywhere")
#define PICTURE QT_TRANSLATE_NOOP("Keys", "Picture")
#define MARKS QT_TRANSLATE_NOOP("Keys", "Marks")
#define SHEET QT_TRANSLATE_NOOP("Keys", "Sheet")
#define READINGS QT_TRANSLATE_NOOP("Keys", "Readings")
#define FILMING QT_TRANSLATE_NOOP("Keys", "Filming")
#define NAME(text) QT_TRANSLATE_NOOP("Keys", text)

constexpr std::array table{
    KeyEntry{"page.athletes", EVERYWHERE, NAME("Athletes page"), "Ctrl+1"},
    KeyEntry{"page.filming", EVERYWHERE, NAME("Filming page"), "Ctrl+2"},
    KeyEntry{"page.marks", EVERYWHERE, NAME("Marks page"), "Ctrl+3"},
    KeyEntry{"page.readings", EVERYWHERE, NAME("Readings page"), "Ctrl+4"},
    KeyEntry{"page.compare", EVERYWHERE, NAME("Fresh | Fatigued page"), "Ctrl+5"},
    KeyEntry{"page.sheet", EVERYWHERE, NAME("Sheet page"), "Ctrl+6"},
    KeyEntry{"page.refilms", EVERYWHERE, NAME("Re-films page"), "Ctrl+7"},
    KeyEntry{"file.open", EVERYWHERE, NAME("Open library or session"), "Ctrl+O"},
    KeyEntry{"file.film", EVERYWHERE, NAME("Film of the steps"), "Ctrl+Shift+F"},
    KeyEntry{"file.numbers", EVERYWHERE, NAME("Numbers of the clip for other programs"),
             "Ctrl+Shift+E"},
    KeyEntry{"file.take_marks", EVERYWHERE, NAME("Marks or contacts from a file"), "Ctrl+Shift+I"},
    KeyEntry{"file.quit", EVERYWHERE, NAME("Quit"), "Ctrl+Q"},
    KeyEntry{"edit.undo", EVERYWHERE, NAME("Undo"), "Ctrl+Z"},
    KeyEntry{"edit.redo", EVERYWHERE, NAME("Redo"), "Ctrl+Shift+Z"},
    KeyEntry{"view.names", EVERYWHERE, NAME("Hide or show names"), "F8"},
    KeyEntry{"view.clip", EVERYWHERE, NAME("Next clip of the session"), "Ctrl+Tab"},
    KeyEntry{"athletes.new", EVERYWHERE, NAME("New athlete"), "Ctrl+N"},
    KeyEntry{"session.before_filming", EVERYWHERE, NAME("Questions before filming"), "Ctrl+B"},
    KeyEntry{"help.page", EVERYWHERE, NAME("Help on what is in front"), "F1"},
    KeyEntry{"help.keys", EVERYWHERE, NAME("Change keys"), "Ctrl+F1"},
    KeyEntry{"help.tour", EVERYWHERE, NAME("Short tour on the sample athlete"), "Ctrl+F2"},
    KeyEntry{"help.practice", EVERYWHERE, NAME("Practise marking against the truth"), "Ctrl+F3"},
    KeyEntry{"help.repeat", EVERYWHERE, NAME("Mark again, blind: how well you find each point"),
             "Ctrl+F4"},
    KeyEntry{"sheet.pdf", SHEET, NAME("Save the sheet as PDF"), "Ctrl+E"},
    KeyEntry{"sheet.print", SHEET, NAME("Print the sheet"), "Ctrl+P"},

    KeyEntry{"readings.own", READINGS, NAME("Own measures"), "O"},

    KeyEntry{"picture.play", PICTURE, NAME("Play or pause"), "Space"},
    KeyEntry{"picture.play_back", PICTURE, NAME("Play backwards or pause"), "Shift+Space"},
    KeyEntry{"picture.frame_back", PICTURE, NAME("One frame back"), ","},
    KeyEntry{"picture.frame_on", PICTURE, NAME("One frame on"), "."},
    KeyEntry{"picture.instant_back", PICTURE, NAME("Instant before"), "Ctrl+Left"},
    KeyEntry{"picture.instant_on", PICTURE, NAME("Next instant"), "Ctrl+Right"},
    KeyEntry{"picture.step_back", PICTURE, NAME("Step before"), "PgUp"},
    KeyEntry{"picture.step_on", PICTURE, NAME("Next step"), "PgDown"},
    KeyEntry{"picture.slower", PICTURE, NAME("Slower"), "["},
    KeyEntry{"picture.faster", PICTURE, NAME("Faster"), "]"},
    KeyEntry{"picture.loop", PICTURE, NAME("Loop the step"), "L"},
    KeyEntry{"picture.zoom_in", PICTURE, NAME("Zoom in"), "+"},
    KeyEntry{"picture.zoom_out", PICTURE, NAME("Zoom out"), "-"},
    KeyEntry{"picture.fit", PICTURE, NAME("Whole picture"), "0"},

    KeyEntry{"filming.set_up", FILMING, NAME("Set-up card and calculator"), "U"},
    KeyEntry{"filming.add", FILMING, NAME("Add clips"), "A"},
    KeyEntry{"filming.part", FILMING, NAME("Next part: clip, run, scene, trust"), "T"},
    KeyEntry{"filming.scale", FILMING, NAME("Draw a scale line"), "S"},
    KeyEntry{"filming.plumb", FILMING, NAME("Draw the plumb line"), "D"},
    KeyEntry{"filming.ground", FILMING, NAME("Draw the ground line"), "F"},
    KeyEntry{"filming.corners", FILMING, NAME("Draw four corners"), "C"},
    KeyEntry{"filming.place", FILMING, NAME("Put the line into the middle"), "Return"},
    KeyEntry{"filming.next_end", FILMING, NAME("Choose the next end of a line"), "E"},
    KeyEntry{"filming.let_go", FILMING, NAME("Let go of the line"), "Esc"},
    KeyEntry{"filming.ghost", FILMING, NAME("Last visit over the picture"), "G"},

    KeyEntry{"marks.left_contact", MARKS, NAME("Left contact here"), "Q"},
    KeyEntry{"marks.left_toe_off", MARKS, NAME("Left toe-off here"), "W"},
    KeyEntry{"marks.right_contact", MARKS, NAME("Right contact here"), "O"},
    KeyEntry{"marks.right_toe_off", MARKS, NAME("Right toe-off here"), "P"},
    KeyEntry{"marks.event_due", MARKS, NAME("The event due is here, on to the next"), "E"},
    KeyEntry{"marks.go_to_due", MARKS, NAME("Go to where the next event is due"), "D"},
    KeyEntry{"marks.check", MARKS, NAME("Next place to look at again"), "C"},
    KeyEntry{"marks.remove_step", MARKS, NAME("Remove the step"), "Ctrl+Del"},
    KeyEntry{"marks.next_cell", MARKS, NAME("Next cell that wants work"), "N"},
    KeyEntry{"marks.previous_cell", MARKS, NAME("Cell before that wants work"), "Shift+N"},
    KeyEntry{"marks.accept", MARKS, NAME("Place at the crosshair, or confirm the cell"), "Return"},
    KeyEntry{"marks.accept_step", MARKS, NAME("Accept the whole step"), "Shift+Return"},
    KeyEntry{"marks.propose", MARKS, NAME("Propose landmarks, or again"), "U"},
    KeyEntry{"marks.runner_box", MARKS, NAME("Box round the runner to propose for"), "Shift+U"},
    KeyEntry{"marks.exchange_legs", MARKS, NAME("Exchange near and far leg from here on"), "X"},
    KeyEntry{"marks.feet", MARKS, NAME("Mark ankle, heel and toe of both feet here"), "H"},
    KeyEntry{"marks.follow", MARKS, NAME("Follow the placed marks through the clip"), "F"},
    KeyEntry{"marks.find_contacts", MARKS, NAME("Find contacts and toe-offs"), "G"},
    KeyEntry{"marks.accept_contact", MARKS, NAME("Accept the event found, on to the next"), "A"},
    KeyEntry{"marks.accept_contacts", MARKS, NAME("Accept all contacts found"), "Shift+A"},
    KeyEntry{"marks.not_visible", MARKS, NAME("Not visible"), "V"},
    KeyEntry{"marks.copy", MARKS, NAME("Start from the step before"), "B"},
    KeyEntry{"marks.next_mark", MARKS, NAME("Choose the next mark"), "M"},
    KeyEntry{"marks.previous_mark", MARKS, NAME("Choose the mark before"), "Shift+M"},
    KeyEntry{"marks.remove", MARKS, NAME("Remove the chosen mark"), "Del"},
    KeyEntry{"marks.let_go", MARKS, NAME("Let go of the mark or the cell"), "Esc"},
};

} // namespace

std::span<const KeyEntry> keyTable()
{
    return table;
}

} // namespace latemile::ui
