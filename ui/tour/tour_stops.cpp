// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/tour/tour_stops.hpp"

#include <QtGlobal>

#include <array>

namespace latemile::ui {
namespace {

#define TEXT(text) QT_TRANSLATE_NOOP("Tour", text)

constexpr std::array stops{
    TourStop{"athletes", TEXT("The job"),
             TEXT("Ilse, an invented runner, feels heavy late in her long run. She was filmed at "
                  "minute 6 and minute 58: what changes, and what should she think of?")},
    TourStop{"filming", TEXT("Two clips and a scale"),
             TEXT("Each clip has its condition and minute. A pole of 200 cm in the picture turns "
                  "pixels into centimetres; the list says what is still missing.")},
    TourStop{"marks", TEXT("Mark the steps"),
             TEXT("The bars under the picture are the feet on the ground. Press N for the next "
                  "cell that wants work, arrow keys to move a mark, Ctrl+Z to take it back.")},
    TourStop{"readings", TEXT("Read, with errors"),
             TEXT("Each number has its error. Choose one: the picture shows the frame and the "
                  "lines it came from. F1 tells what it means.")},
    TourStop{"compare", TEXT("Fresh beside fatigued"),
             TEXT("Only what lies beyond its own error is called a clear change. The foot lands "
                  "further ahead, the head is carried in front.")},
    TourStop{"sheet", TEXT("One page, one or two cues"),
             TEXT("Measures were chosen before looking. The cues that fit stand first, each with "
                  "the change it answers. Save or print when it reads well.")},
    TourStop{"refilms", TEXT("A month later"),
             TEXT("Film again at the same speed: the plots show whether the change is clear and "
                  "whether it has held. That is the whole job.")},
};

} // namespace

std::span<const TourStop> tourStops()
{
    return stops;
}

} // namespace latemile::ui
