// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/quiet_application.hpp"
#include "app/batch/session_folder.hpp"
#include "app/batch/word.hpp"
#include "core/film/film_plan.hpp"
#include "core/json_file.hpp"
#include "core/whole_file.hpp"
#include "ui/film/film_maker.hpp"

#include <cmath>

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path folder;
    std::filesystem::path out;
    std::filesystem::path contacts; ///< WebVTT to write; empty: none
    std::string clips{"both"};
    std::optional<int> from;
    std::optional<int> fatiguedFrom;
    bool noNumbers{};
    bool inches{};
    FilmWish wish;
    bool json{};
};

FilmWish wishOf(const Asked& asked, const Session& session)
{
    FilmWish wish = asked.wish;
    const auto step = [](std::optional<int> number) {
        return number ? std::optional(StepNumber{*number}) : std::nullopt;
    };
    wish.from = step(asked.from);
    wish.fatiguedFrom = step(asked.fatiguedFrom);
    wish.numbers = !asked.noNumbers;
    wish.lengths = asked.inches ? Lengths::Inches : Lengths::Centimetres;
    wish.measures = session.measures;
    return wish;
}

/// The plan, and the clips it shows.
struct Planned {
    std::vector<SheetClip> clips;
    FilmPlan plan;
};

Outcome<Planned> planned(const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto opened, openSessionFolder(asked.folder));
    const auto facts = factsOf(opened.athlete);
    const auto wish = wishOf(asked, opened.session);
    Planned planned;
    for (const char* condition : {"fresh", "fatigued"}) {
        if (asked.clips == "both" || asked.clips == condition) {
            ASSIGN_OR_RETURN(auto clip,
                             sheetClipOf(asked.folder, opened.session, condition, facts));
            planned.clips.push_back(std::move(clip));
        }
    }
    ASSIGN_OR_RETURN(planned.plan, planned.clips.size() == 1
                                       ? filmOf(planned.clips[0], wish)
                                       : filmOf(planned.clips[0], planned.clips[1], wish));
    return planned;
}

Outcome<void> writeContacts(const Asked& asked, const Planned& planned)
{
    return replaceFile(asked.contacts, contactsVtt(planned.clips.front().clip.marking.stances,
                                                   clockOf(planned.plan.sides.front())));
}

std::string answer(const Asked& asked, const FilmPlan& plan)
{
    const auto pictures = plan.sides.front().shots.size();
    const auto seconds = static_cast<double>(pictures) / filmRate;
    return asked.json ? jsonText({{"version", 1},
                                  {"file", asked.out.string()},
                                  {"pictures", pictures},
                                  {"seconds", seconds}})
                      : "The film is in " + asked.out.string() + ": " + std::to_string(pictures) +
                            " pictures, " + std::to_string(std::lround(seconds)) + " s.\n";
}

Outcome<std::string> makeFilm(const Asked& asked)
{
    const QuietApplication application;
    const Progress progress("Filming the steps of " + asked.folder.string());
    ASSIGN_OR_RETURN(const auto plan, planned(asked));
    RETURN_IF_ERROR(ui::writeFilm(plan.plan, asked.out));
    if (!asked.contacts.empty()) {
        RETURN_IF_ERROR(writeContacts(asked, plan));
    }
    return answer(asked, plan.plan);
}

} // namespace

void addFilm(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "film",
        "Steps of a session as a film: slowed down, standing at contact and mid-stance with "
        "lines and numbers");
    addPath(*word, "SESSION_FOLDER", asked->folder,
            "The folder that holds session.json, in the athlete's own");
    addOut(*word, asked->out, {".mp4"}, "The film to write")->required();
    word->add_option("--clips", asked->clips,
                     "fresh, fatigued, or both side by side (without this)")
        ->type_name("")
        ->check(CLI::IsMember({"fresh", "fatigued", "both"}));
    word->add_option("--steps", asked->wish.steps, "How many steps of the near foot (2)")
        ->check(CLI::Range(1, 50));
    word->add_option("--from", asked->from, "From which step on; of both: of the fresh clip")
        ->check(CLI::Range(1, 1000000));
    word->add_option("--fatigued-from", asked->fatiguedFrom, "Of both: of the fatigued clip")
        ->check(CLI::Range(1, 1000000));
    word->add_option("--slower", asked->wish.slower, "How many times slower than real (4)")
        ->check(CLI::Range(1.0, 16.0));
    word->add_flag("--no-numbers", asked->noNumbers, "The figure alone");
    word->add_flag("--inches", asked->inches, "Lengths in inches");
    addInput(*word, "--contacts", asked->contacts,
             "A WebVTT file to write: when the near clip's feet are on the ground in the film");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return makeFilm(*asked); }; });
}

} // namespace latemile::batch
