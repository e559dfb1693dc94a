// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/arguments.hpp"
#include "app/batch/progress.hpp"
#include "app/batch/quiet_application.hpp"
#include "app/batch/session_folder.hpp"
#include "app/batch/word.hpp"
#include "app/resource_folder.hpp"
#include "core/compare/cues.hpp"
#include "core/json_file.hpp"
#include "core/sheet/sheet_content.hpp"
#include "ui/sheet/sheet_files.hpp"

#include <QDate>
#include <QImageReader>

#include <map>

namespace latemile::batch {

namespace {

struct Asked {
    std::filesystem::path folder;
    std::filesystem::path out;
    ui::SheetStyle style;
    SheetChoice choice;
    std::string coach;   ///< empty: the session's
    std::string contact; ///<
    std::filesystem::path logo;
    bool json{};
};

Outcome<SheetContent> contentOf(const Asked& asked, OpenedSession& opened)
{
    if (!asked.coach.empty()) {
        opened.session.coach = asked.coach;
    }
    ASSIGN_OR_RETURN(const auto cues, readCues(resourceFolder() / "cues.json"));
    return sheetContent(asked.folder, opened.session, opened.athlete, cues, asked.choice);
}

Outcome<ui::SheetStyle> styleOf(const Asked& asked)
{
    ui::SheetStyle style = asked.style;
    style.contact = QString::fromStdString(asked.contact);
    if (!asked.logo.empty()) {
        QImageReader reader(QString::fromStdString(asked.logo.string()));
        reader.setDecideFormatFromContent(true);
        style.logo = reader.read();
        if (style.logo.isNull()) {
            return fail(Error::Kind::Unsupported, "The logo " + asked.logo.string() +
                                                      " cannot be read: give a PNG or JPEG file.");
        }
    }
    return style;
}

Outcome<void> write(const SheetContent& content, const Asked& asked)
{
    ASSIGN_OR_RETURN(const auto style, styleOf(asked));
    ASSIGN_OR_RETURN(const auto pictures, ui::loadStills(content));
    return ui::writeSheet(content, pictures, asked.out, style);
}

/// The script decides what leaves the machine; it is told what the window would have asked.
std::string consentOf(const Athlete& athlete)
{
    return whyNoConsent(athlete, QDate::currentDate().toString(Qt::ISODate).toStdString());
}

std::string answer(const Asked& asked, const SheetContent& content, const std::string& noConsent)
{
    if (asked.json) {
        return jsonText({{"file", asked.out.string()},
                         {"athlete", content.athlete},
                         {"date", content.date},
                         {"rows", content.rows.size()},
                         {"cues", content.cues.size()},
                         {"see_clinician", content.seeClinician},
                         {"no_consent", noConsent},
                         {"confirmed", content.confirmed}});
    }
    return "The sheet of " + content.athlete + ", " + content.date + ", is in " +
           asked.out.string() + ".\n" + (noConsent.empty() ? "" : noConsent + "\n");
}

Outcome<std::string> writeSheet(const Asked& asked)
{
    const QuietApplication application;
    const Progress progress("Making the sheet of " + asked.folder.string());
    ASSIGN_OR_RETURN(auto opened, openSessionFolder(asked.folder));
    ASSIGN_OR_RETURN(const auto content, contentOf(asked, opened));
    RETURN_IF_ERROR(write(content, asked));
    return answer(asked, content, consentOf(opened.athlete));
}

} // namespace

void addSheet(CLI::App& program, Job& job)
{
    auto asked = std::make_shared<Asked>();
    auto* word = program.add_subcommand("sheet", "The page an athlete takes home");
    addPath(*word, "SESSION_FOLDER", asked->folder,
            "The folder that holds session.json, in the athlete's own");
    addOut(*word, asked->out, {".pdf", ".png", ".html"},
           "The sheet to write, as PDF, picture or page for a screen")
        ->required();
    word->add_option("--paper", asked->style.paper, "a4 (without this) or letter")
        ->type_name("")
        ->transform(CLI::CheckedTransformer(
            std::map<std::string, ui::Paper>{{"a4", ui::Paper::A4}, {"letter", ui::Paper::Letter}},
            CLI::ignore_case));
    word->add_flag("--inches", asked->style.inches, "Lengths in inches, speeds in miles");
    word->add_flag("--large-print", asked->style.largePrint, "Larger type");
    word->add_flag("--black-and-white", asked->style.blackAndWhite, "No colours");
    word->add_option("--coach", asked->coach, "The coach's name; without this the session's")
        ->type_name("");
    word->add_option("--contact", asked->contact, "Telephone or address, beside the coach's name")
        ->type_name("");
    addInput(*word, "--logo", asked->logo, "A picture for the top right corner");
    word->add_flag("--hide-name", asked->choice.hideName, "The athlete's code instead of the name");
    addJson(*word, asked->json);
    word->callback([asked, &job] { job = [asked] { return writeSheet(*asked); }; });
}

} // namespace latemile::batch
