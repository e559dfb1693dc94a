// SPDX-License-Identifier: GPL-3.0-or-later
// Everything that is written, on a disk that is full at twenty sizes from nothing to more than
// enough: whole, or the older file stands and one sentence says so.
#include "core/json_file.hpp"
#include "core/store/session_file.hpp"
#include "core/store/session_json.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/faults/scripted_editor.hpp"
#include "tests/faults/small_disk.hpp"
#include "tests/project_folders.hpp"
#include "tests/scratch_folder.hpp"
#include "ui/filming/common_lengths.hpp"
#include "ui/window/settings_file.hpp"

#include <QCoreApplication>
#include <QSettings>

#include <algorithm>
#include <set>

using namespace latemile;
using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;
using IsWhole = std::function<bool(const std::string& bytes)>;
using Words = std::vector<std::string>;

constexpr std::size_t plenty = 8192; ///< pages

void tellOfDisk()
{
    static const bool real = disksCanBeMounted();
    if (!real) {
        WARN("No disk can be mounted here: a limit on the size of files stands for a full one.");
    }
}

/// What a file of the work looks like where there is room for it.
std::string wholeFile(const FileWork& work)
{
    const auto written = writtenWithin(plenty, work);
    REQUIRE(written);
    CAPTURE(written->refusal.value_or(""));
    REQUIRE(!written->refusal);
    REQUIRE(written->bytes);
    REQUIRE(written->bytes != work.old);
    return *written->bytes;
}

void checkSentence(const std::string& sentence, const std::string& name)
{
    CAPTURE(sentence);
    CHECK(sentence.ends_with('.'));
    CHECK(sentence.find('\n') == std::string::npos);
    CHECK_THAT(sentence, containing(fs::path(name).filename().string()));
}

struct Figures {
    int done{};
    int refused{};
};

/// `goesAlong` may stand beside the file, such as the generation before it.
void checkWritten(const FileWork& work, const Written& written, const IsWhole& isWhole,
                  const std::set<std::string>& goesAlong, Figures& figures)
{
    for (const auto& other : written.others) {
        CAPTURE(other);
        CHECK(goesAlong.contains(other));
    }
    if (written.refusal) {
        ++figures.refused;
        checkSentence(*written.refusal, work.name);
        CHECK((written.bytes == work.old));
    } else {
        ++figures.done;
        CHECK((written.bytes && isWhole(*written.bytes)));
    }
}

/// Every second time, and at both ends, over an older file, unless there always is one.
Figures atSizes(int sizes, FileWork work, std::size_t bytes, const IsWhole& isWhole,
                const std::set<std::string>& goesAlong = {}, bool alwaysOld = false)
{
    tellOfDisk();
    Figures figures;
    const auto old = work.old ? work.old : std::optional<std::string>("An older one.");
    const std::size_t most = bytes / pageBytes + 4;
    for (int i = 0; i < sizes; ++i) {
        const auto pages = most * static_cast<std::size_t>(i) / static_cast<std::size_t>(sizes - 1);
        work.old = alwaysOld || i % 2 == 0 || i == sizes - 1 ? old : std::nullopt;
        CAPTURE(work.name, pages, work.old.has_value());
        const auto written = writtenWithin(pages, work);
        REQUIRE(written);
        checkWritten(work, *written, isWhole, goesAlong, figures);
    }
    CHECK(figures.refused > 0);
    CHECK(figures.done > 0);
    return figures;
}

IsWhole equals(std::string whole)
{
    return [whole = std::move(whole)](const std::string& bytes) { return bytes == whole; };
}

std::string documentText(int marks)
{
    return jsonText(toJson(dayWithMarks(marks)));
}

/// The program, its last word the file it writes.
FileWork byProgram(const std::string& name, Words words)
{
    return {name, std::nullopt,
            [name, words = std::move(words)](const fs::path& folder) -> std::optional<std::string> {
                auto all = words;
                all.insert(all.begin(), "--in-process");
                all.push_back((folder / name).string());
                const auto ran = batch(all);
                if (ran.exit == 0) {
                    return std::nullopt;
                }
                // A refusal in any other way than promised is not taken for a sentence.
                return ran.exit == 1 && ran.out.empty() && ran.err.ends_with('\n')
                           ? ran.err.substr(0, ran.err.size() - 1)
                           : "exit " + std::to_string(ran.exit) + "\n" + ran.out + ran.err;
            }};
}

fs::path sampleDay()
{
    return sourceFolder() / "sample_clips" / "ilse-varga" / "2026-08-29";
}

/// Asked of a program that is not ours.
bool isSoundPdf(const std::string& bytes)
{
    const ScratchFolder folder;
    return run("qpdf", {"--check", folder.file("sheet.pdf", bytes).string()}).exit == 0;
}

struct ByProgram {
    const char* name;
    Words words;
    int sizes; ///< in the suite; all twenty by hand
};

std::vector<ByProgram> byPrograms()
{
    const auto day = sampleDay().string();
    return {
        {"readings.csv", {"measure", day, "--condition", "fresh", "--out"}, 10},
        {"still.png", {"frame", day + "/clips/fresh.mp4", "--at", "20", "--out"}, 4},
        {"sheet.pdf", {"sheet", day, "--out"}, 2},
        {"sheet.png", {"sheet", day, "--out"}, 0}, // as the PDF, by the same call
        {"film.mp4",
         {"film", day, "--clips", "fresh", "--steps", "1", "--slower", "1", "--out"},
         3},
    };
}

Figures checkProgram(const ByProgram& one, int sizes)
{
    const auto work = byProgram(one.name, one.words);
    const auto whole = wholeFile(work);
    const bool isPdf = work.name.ends_with(".pdf"); // in which the time of writing stands
    return atSizes(sizes, work, whole.size(), isPdf ? IsWhole(isSoundPdf) : equals(whole));
}

/// The scripted editor's edits until the disk is full; what was told as kept and what a new start
/// finds there, as a document.
std::optional<std::string> editsTillFull(const fs::path& folder)
{
    int said = 0;
    std::string sentence;
    {
        auto file = SessionFile::open(folder, {"editor", "here"});
        if (!file) {
            return file.error().sentence;
        }
        for (Session now = file->session(); sentence.empty() && said < 5000;) {
            edit(now, said + 1);
            const auto kept = file->keep(now);
            sentence = kept ? "" : kept.error().sentence;
            said += kept ? 1 : 0;
        }
    }
    const auto again = SessionFile::open(folder, {"test", "here"});
    if (!again) {
        return again.error().sentence;
    }
    const auto& found = again->recovery() ? again->recovery()->session : again->session();
    return nlohmann::json{{"said", said},
                          {"found", lastEdit(found)},
                          {"whole", isWhole(found)},
                          {"sentence", sentence}}
        .dump();
}

std::string settingsText(int lines)
{
    nlohmann::json settings;
    for (int i = 0; i < lines; ++i) {
        settings["seen/clip" + std::to_string(1000 + i)] = std::string(200, 'x');
    }
    return settings.dump();
}

} // namespace

TEST_CASE("a document at 20 sizes of a full disk is the new one or the old one", "[full-disk]")
{
    const FileWork work{"session.json", documentText(400),
                        [](const fs::path& folder) -> std::optional<std::string> {
                            const auto done = writeSession(dayWithMarks(900), folder);
                            return done ? std::nullopt : std::optional(done.error().sentence);
                        }};
    const auto whole = documentText(900);
    const auto figures =
        atSizes(20, work, whole.size(), equals(whole), {"session.previous.json"}, true);
    CHECK(figures.refused >= 10);
}

TEST_CASE("a journal at 20 sizes of a full disk holds every edit told as saved", "[full-disk]")
{
    tellOfDisk();
    int before = 0;
    for (std::size_t pages = 0; pages < 20; ++pages) {
        CAPTURE(pages);
        const auto document = jsonText(toJson(emptyDay()));
        const auto written = writtenWithin(pages, {"session.json", document, &editsTillFull});
        REQUIRE(written);
        REQUIRE(written->refusal);
        CAPTURE(*written->refusal);
        CHECK((written->bytes == document));
        const auto told = nlohmann::json::parse(*written->refusal);
        CHECK(told["found"] >= told["said"]);
        CHECK(told["whole"] == true);
        checkSentence(told["sentence"].get<std::string>(), "session.journal");
        // The lock takes the first page; each one more holds more edits.
        CHECK(told["said"] > (pages < 2 ? -1 : before));
        before = told["said"].get<int>();
        for (const auto& other : written->others) {
            CAPTURE(other);
            CHECK((other == "session.journal" || other == "session.lock"));
        }
    }
}

TEST_CASE("the window's settings on a full disk are the new ones or the old ones", "[full-disk]")
{
    QCoreApplication::setOrganizationName("Latemile");
    QCoreApplication::setApplicationName("latemile");
    const FileWork work{
        "Latemile/latemile.json", settingsText(300),
        [](const fs::path& folder) -> std::optional<std::string> {
            for (const auto format : {QSettings::NativeFormat, QSettings::IniFormat}) {
                QSettings::setPath(format, QSettings::UserScope,
                                   QString::fromStdString(folder.string()));
            }
            ui::keepSettingsWhole();
            ui::rememberLastLength(314);
            return std::nullopt;
        }};
    const auto whole = wholeFile(work);
    CHECK_THAT(whole, containing("\": 314"));
    CHECK_THAT(whole, containing("clip1299\": \"xxx"));
    tellOfDisk();
    int kept = 0;
    for (std::size_t i = 0; i < 20; ++i) {
        const auto pages = (whole.size() / pageBytes + 4) * i / 19;
        CAPTURE(pages);
        const auto written = writtenWithin(pages, work);
        REQUIRE(written);
        CHECK((written->bytes == work.old || written->bytes == whole));
        kept += written->bytes == work.old ? 1 : 0;
        CHECK(written->others.empty());
    }
    CHECK(kept >= 10);
    CHECK(kept < 20);
}

TEST_CASE("a record handed over at 20 sizes of a full disk is whole or not there", "[full-disk]")
{
    const ScratchFolder library;
    fs::create_directories(library / "ilse/2026-08-29");
    fs::copy_file(sampleDay().parent_path() / "athlete.json", library / "ilse/athlete.json");
    fs::copy_file(sampleDay() / "session.json", library / "ilse/2026-08-29/session.json");
    const auto work = byProgram("record.zip", {"hand-over", (library / "ilse").string(), "--out"});
    const auto whole = wholeFile(work);
    // Outside: the test of the unzip program.
    CHECK(run("unzip", {"-t", library.file("whole.zip", whole).string()}).exit == 0);
    (void)atSizes(20, work, whole.size(), equals(whole));
}

TEST_CASE("tables, pictures, sheets and films on a full disk are whole or not there", "[full-disk]")
{
    for (const auto& one : byPrograms()) {
        if (one.sizes > 0) {
            (void)checkProgram(one, one.sizes);
        }
    }
}

// By hand: full_disk_test "[twenty]"
TEST_CASE("every table, picture, sheet and film at 20 sizes of a full disk", "[.][twenty]")
{
    for (const auto& one : byPrograms()) {
        const auto figures = checkProgram(one, 20);
        WARN(one.name << ": refused " << figures.refused << ", written " << figures.done);
    }
}
