// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/clip/clip_reader.hpp"
#include "core/clip/png_file.hpp"
#include "core/csv.hpp"
#include "core/json_file.hpp"
#include "core/rounding.hpp"

#include <charconv>
#include <variant>

namespace latemile::batch {

namespace {

using Place = std::variant<FrameNumber, Seconds>;

struct Asked {
    std::filesystem::path clip;
    ClipOptions options;
    Place at;
    std::filesystem::path out;
    bool json{};
};

/// "120" is a frame, "1.25s" a time; nothing else is a place.
std::optional<Place> placeFrom(std::string_view text)
{
    if (text.ends_with('s')) {
        const auto seconds = numberFrom(text.substr(0, text.size() - 1));
        return seconds && *seconds >= 0 ? std::optional<Place>(Seconds{*seconds}) : std::nullopt;
    }
    std::int64_t number{};
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = fault == std::errc{} && end == text.data() + text.size() && number >= 0;
    return whole ? std::optional<Place>(FrameNumber{number}) : std::nullopt;
}

/// The frame nearest to a time. Half-way between two it is the later one: the time of a contact
/// lies half-way before the first frame that shows it, and that frame is wanted.
FrameNumber nearest(const FrameIndex& index, Seconds time)
{
    constexpr Seconds roundingOfTimes{1e-6};
    return index.nearest(time + roundingOfTimes);
}

Outcome<FrameNumber> frameAt(const Place& place, const FrameIndex& index, const std::string& name)
{
    const FrameNumber last{index.size() - 1};
    const auto end = index.time(last) + index.interval(last);
    if (const auto* time = std::get_if<Seconds>(&place)) {
        if (*time > end) {
            return fail(Error::Kind::NotFound, name + " ends after " + fixedText(end.count(), 3) +
                                                   " s: --at must lie before.");
        }
        return nearest(index, *time);
    }
    const auto frame = std::get<FrameNumber>(place);
    if (!index.contains(frame)) {
        return fail(Error::Kind::NotFound, name + " has the frames 0 to " +
                                               std::to_string(last.value) + ", not " +
                                               std::to_string(frame.value) + ".");
    }
    return frame;
}

std::string answer(const Asked& asked, const Frame& frame)
{
    if (asked.json) {
        return jsonText({{"frame", frame.number.value},
                         {"time_s", frame.time.count()},
                         {"width", frame.picture.width()},
                         {"height", frame.picture.height()},
                         {"file", asked.out.string()}});
    }
    return "Frame " + std::to_string(frame.number.value) + " at " +
           fixedText(frame.time.count(), 4) + " s, " + std::to_string(frame.picture.width()) +
           " x " + std::to_string(frame.picture.height()) + " pixels, is in " + asked.out.string() +
           ".\n";
}

Outcome<std::string> writeFrame(const Asked& asked)
{
    const Progress progress("Reading " + asked.clip.string());
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(asked.clip, asked.options));
    ASSIGN_OR_RETURN(const auto number, frameAt(asked.at, clip.index(), asked.clip.string()));
    ASSIGN_OR_RETURN(const auto frame, clip.frame(number));
    RETURN_IF_ERROR(writePng(frame.picture, asked.out));
    return answer(asked, frame);
}

std::string faultOfPlace(std::string& text)
{
    return placeFrom(text) ? std::string()
                           : "'" + text + "' is neither a frame (120) nor a time (1.25s)";
}

} // namespace

void addFrame(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand("frame", "One exact upright frame of a clip as a picture");
    addPath(*word, "CLIP", asked->clip, "The video file");
    word->add_option_function<std::string>(
            "--at", [asked](const std::string& text) { asked->at = *placeFrom(text); },
            "Which frame: its number, the first is 0, or a real time such as 1.25s")
        ->required()
        ->type_name("N|TIME")
        ->check(CLI::Validator(&faultOfPlace, ""));
    addOut(*word, asked->out, {".png"}, "The picture to write")->required();
    addCaptureRate(*word, asked->options.captureRate);
    word->add_flag("--fields", asked->options.fieldsAsFrames,
                   "Interlaced clips: one picture a field, at twice the rate");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return writeFrame(*asked); }; });
}

} // namespace latemile::batch
