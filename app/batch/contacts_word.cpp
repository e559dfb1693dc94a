// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/word.hpp"
#include "core/clip/clip_reader.hpp"
#include "core/decimal_text.hpp"
#include "core/follow/contact_finder.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/whole_file.hpp"

#include <algorithm>

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path clip;
    bool fieldsAsFrames{};
    std::filesystem::path marks;
    std::filesystem::path scene;
    std::filesystem::path contacts; ///< placed ones; empty: none
    std::filesystem::path out;
    bool json{};
};

nlohmann::json toJson(const std::vector<Stance>& stances, const std::vector<std::string>& remarks)
{
    auto rows = nlohmann::json::array();
    for (const auto& stance : stances) {
        nlohmann::json row{{"foot", nameOf(stance.foot)},
                           {"contact_s", stance.contact.count()},
                           {"toe_off_s", nullptr},
                           {"origin", nameOf(stance.origin)},
                           {"se_s", nullptr}};
        if (stance.toeOff) {
            row["toe_off_s"] = stance.toeOff->count();
        }
        if (stance.se) {
            row["se_s"] = stance.se->count();
        }
        rows.push_back(std::move(row));
    }
    return {{"version", 1}, {"stances", rows}, {"remarks", remarks}};
}

std::string textOf(const std::vector<Stance>& stances, const std::vector<std::string>& remarks)
{
    std::string text;
    for (const auto& stance : stances) {
        const auto foot = std::string(nameOf(stance.foot));
        text += foot + std::string(7 - foot.size(), ' ') + "contact " +
                decimalText(stance.contact.count(), 4) + " s, " +
                (stance.toeOff ? "toe-off " + decimalText(stance.toeOff->count(), 4) + " s"
                               : std::string("toe-off not seen")) +
                (stance.se ? " (± " + decimalText(1000.0 * stance.se->count(), 1) + " ms)"
                           : std::string()) +
                ", " + std::string(nameOf(stance.origin)) + "\n";
    }
    for (const auto& remark : remarks) {
        text += remark + "\n";
    }
    return text;
}

Outcome<std::string> contacts(const Asked& asked)
{
    const Progress progress("Reading " + asked.clip.string());
    ASSIGN_OR_RETURN(const auto scene, readScene(asked.scene));
    ClipOptions options;
    options.captureRate = scene.captureRate;
    options.fieldsAsFrames = asked.fieldsAsFrames;
    ASSIGN_OR_RETURN(auto clip, ClipReader::open(asked.clip, options));
    Marking marking;
    ASSIGN_OR_RETURN(marking.marks,
                     readMarks(asked.marks, clip.index(), clip.facts().width, clip.facts().height));
    if (!asked.contacts.empty()) {
        ASSIGN_OR_RETURN(marking.stances, readContacts(asked.contacts, clip.index()));
    }
    ASSIGN_OR_RETURN(auto found, findContacts(clip, marking, scene));
    auto all = marking.stances;
    all.insert(all.end(), found.stances.begin(), found.stances.end());
    std::sort(all.begin(), all.end(),
              [](const Stance& a, const Stance& b) { return a.contact < b.contact; });
    if (!asked.out.empty()) {
        RETURN_IF_ERROR(replaceFile(asked.out, contactsText(all)));
    }
    return asked.json ? jsonText(toJson(all, found.remarks)) : textOf(all, found.remarks);
}

} // namespace

void addContacts(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand(
        "contacts", "Finds contacts and toe-offs from followed heels and toes, with their errors");
    addPath(*word, "CLIP", asked->clip, "The video file");
    addInput(*word, "--marks", asked->marks, "Followed landmarks (MARKS.csv of follow)")
        ->required();
    addInput(*word, "--scene", asked->scene, "Scale, plumb line, belt speed (SCENE.json)")
        ->required();
    addInput(*word, "--contacts", asked->contacts,
             "Placed ones: kept, and what the found ones are off by there is taken off");
    addOut(*word, asked->out, {".csv"}, "Contacts and toe-offs to write (CONTACTS.csv)");
    word->add_flag("--fields", asked->fieldsAsFrames,
                   "Interlaced clips: one picture a field, at twice the rate");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return contacts(*asked); }; });
}

} // namespace latemile::batch
