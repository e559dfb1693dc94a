// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/targets.hpp"

#include "core/clip/clip_reader.hpp"
#include "core/csv_cells.hpp"
#include "core/document_schema.hpp"
#include "core/exchange/coco.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/measures/own_measures.hpp"
#include "core/propose/looks_file.hpp"
#include "core/scene/plane.hpp"
#include "core/store/edit_history.hpp"
#include "core/store/hand_over.hpp"
#include "core/store/journal.hpp"
#include "core/store/session_changes.hpp"
#include "core/store/session_file.hpp"
#include "core/store/session_json.hpp"
#include "tests/core/measures/worked_example.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

#include <unistd.h>

namespace latemile::fuzz {

namespace {

/// Trials write and sync some ten thousand files: into memory, where the machine has such a folder
/// and nobody asked for another.
[[maybe_unused]] const bool writesToMemory =
    ::access("/dev/shm", W_OK) == 0 && ::setenv("TMPDIR", "/dev/shm", 0) == 0;

constexpr int width = 1280;
constexpr int height = 720;

[[noreturn]] void end(const std::string& why)
{
    std::fprintf(stderr, "%s\n", why.c_str());
    std::abort();
}

/// One sentence a person can read.
void needSentence(const Error& error)
{
    const auto& words = error.sentence;
    if (words.empty() || words.size() > 1500 || words.find('\n') != std::string::npos ||
        firstBadByte(words)) {
        end("No sentence: " + words);
    }
}

template <class T>
bool isTaken(const Outcome<T>& outcome)
{
    if (!outcome) {
        needSentence(outcome.error());
    }
    return outcome.has_value();
}

/// What was read can be written and read again: else saving would lock a coach out.
void needWritable(std::string_view schema, const nlohmann::json& written)
{
    if (const auto fault = faultBySchema(schema, written); !fault.empty()) {
        end("Not to be read again: " + fault);
    }
}

const tests::ScratchFolder& scratch()
{
    static const tests::ScratchFolder folder;
    return folder;
}

bool readClip(std::string_view bytes)
{
    const auto file = scratch().file("clip.mp4", bytes);
    auto clip = ClipReader::open(file);
    bool taken = isTaken(clip);
    constexpr std::int64_t most = 24;
    for (std::int64_t n = 0; clip && n < std::min(clip->index().size(), most); ++n) {
        taken = isTaken(clip->frame({n})) && taken;
    }
    return taken;
}

bool readMarksTable(std::string_view bytes)
{
    return isTaken(
        readMarks(scratch().file("marks.csv", bytes), testing::exampleIndex(), width, height));
}

std::string marksSeed()
{
    return marksText(testing::exampleClip().marking.marks, testing::exampleIndex());
}

bool readContactsTable(std::string_view bytes)
{
    return isTaken(readContacts(scratch().file("contacts.csv", bytes), testing::exampleIndex()));
}

std::string contactsSeed()
{
    return contactsText(testing::exampleClip().marking.stances);
}

bool readSceneDocument(std::string_view bytes)
{
    const auto scene = readScene(scratch().file("scene.json", bytes));
    return isTaken(scene) && isTaken(Plane::from(*scene));
}

std::string sceneSeed()
{
    auto scene = testing::exampleScene();
    scene.lens = Lens{900, 900, 640, 360, -0.2, 0.05, 0.001, -0.001, 0.0};
    scene.plane = PlaneCorners{{{{10, 20}, {900, 30}, {890, 600}, {20, 610}}},
                               {{{0, 100}, {200, 100}, {200, 0}, {0, 0}}}};
    return jsonText(toJson(scene));
}

bool readSessionDocument(std::string_view bytes)
{
    (void)scratch().file("session.json", bytes);
    const auto session = readSession(scratch().path());
    if (session) {
        needWritable("session", toJson(*session));
    }
    return isTaken(session);
}

std::string sessionSeed()
{
    const tests::ScratchFolder folder;
    return writeSession(tests::dayWithMarks(6), folder.path())
               ? tests::bytesOf(folder / "session.json")
               : std::string();
}

bool readAthleteDocument(std::string_view bytes)
{
    const auto athlete = readAthlete(scratch().file("athlete.json", bytes));
    if (athlete) {
        needWritable("athlete", toJson(*athlete));
    }
    return isTaken(athlete);
}

std::string athleteSeed()
{
    const tests::ScratchFolder folder;
    Athlete athlete;
    athlete.code = "IV-1";
    athlete.name = "Ilse Varga";
    athlete.heightCm = 167.0;
    athlete.consent = Consent{"Ilse Varga", false, "2026-08-29", "2027-08-29"};
    return writeAthlete(athlete, folder / "athlete.json") ? tests::bytesOf(folder / "athlete.json")
                                                          : std::string();
}

/// A journal beside a document, as the next start finds it.
bool readJournal(std::string_view bytes)
{
    static const std::string document = jsonText(toJson(tests::dayWithMarks(2)));
    const tests::ScratchFolder folder;
    (void)folder.file("session.json", document);
    (void)folder.file("session.journal", bytes);
    auto file = SessionFile::open(folder.path(), {"R. Vale", "studio-2"});
    bool taken = isTaken(file) && file->recovery();
    if (taken) {
        taken = isTaken(file->recover());
    }
    return isTaken(readSession(folder.path())) && taken;
}

std::string journalSeed()
{
    const tests::ScratchFolder folder;
    auto day = tests::dayWithMarks(2);
    if (!writeSession(day, folder.path())) {
        return {};
    }
    auto file = SessionFile::open(folder.path(), {"R. Vale", "studio-2"});
    for (int i = 0; file && i < 4; ++i) {
        day = tests::withToe(day, i);
        if (!file->keep(day)) {
            return {};
        }
    }
    return tests::bytesOf(folder / "session.journal");
}

bool readCocoDocument(std::string_view bytes)
{
    return isTaken(
        readCoco(scratch().file("keypoints.json", bytes), testing::exampleIndex(), width, height));
}

std::string cocoSeed()
{
    return jsonText(cocoKeypoints(testing::exampleClip().marking, testing::exampleIndex(),
                                  {"fresh.mp4", width, height}));
}

bool readOwn(std::string_view bytes)
{
    return isTaken(readOwnMeasures(scratch().file("own_measures.json", bytes)));
}

std::string ownSeed()
{
    return R"({"version": 1, "measures": [{"id": "wrist_up", "name": "Wrist over hip",
 "formula": "wrist above hip at mid-stance", "unit": "cm", "positive": "hand higher",
 "floor": 1}]})";
}

const std::string someSum(64, 'a');

/// What it gives must lead somewhere: each edit is tried.
bool readEdits(std::string_view bytes)
{
    (void)scratch().file("session.edits", bytes);
    auto state = Outcome<Session>(tests::dayWithMarks(2));
    const auto history = editHistoryOf(*state, someSum, scratch().path());
    for (std::size_t i = history.done; i > 0; --i) {
        state = withEdit(*state, history.edits[i - 1].back);
        if (!state) {
            end("An edit was offered that cannot be undone: " + state.error().sentence);
        }
    }
    return !history.edits.empty();
}

std::string editsSeed()
{
    const tests::ScratchFolder folder;
    const auto day = tests::dayWithMarks(2);
    const auto next = tests::withToe(day, 1);
    const EditHistory history{
        {editBetween("toe 0", tests::dayWithMarks(1), day), editBetween("toe 1", day, next)}, 1};
    return keepEditHistory(history, someSum, folder.path())
               ? tests::bytesOf(folder / "session.edits")
               : std::string();
}

bool readLooks(std::string_view bytes)
{
    (void)scratch().file("looked.mp4.looks", bytes);
    return looksOf(testing::exampleIndex(), scratch() / "looked.mp4").has_value();
}

std::string looksSeed()
{
    const tests::ScratchFolder folder;
    ClipLooks looks;
    looks.box = RunnerBox{{1}, {10.0, 20.0, 200.0, 400.0}};
    looks.turns = {{2}};
    for (std::int64_t frame = 0; frame < 3; ++frame) {
        looks.found.push_back({{frame}, testing::exampleIndex().time({frame}), {}});
    }
    looks.path = CropPath({{testing::exampleIndex().time({0}), {{640.0, 360.0}, 512.0, 0.0}}});
    return keepLooks(looks, testing::exampleIndex(), folder / "looked.mp4")
               ? tests::bytesOf(folder / "looked.mp4.looks")
               : std::string();
}

bool readRecord(std::string_view bytes)
{
    const tests::ScratchFolder library;
    return isTaken(takeIn(scratch().file("record.zip", bytes), library / "library"));
}

std::string recordSeed()
{
    const tests::ScratchFolder folder;
    (void)folder.file("ilse/athlete.json", athleteSeed());
    (void)folder.file("ilse/2026-08-29/session.json", sessionSeed());
    for (const char* name : {"fresh.mp4", "fatigued.mp4"}) {
        (void)folder.file(std::string("ilse/2026-08-29/clips/") + name, "film");
    }
    return handOver(folder / "ilse", folder / "record.zip") ? tests::bytesOf(folder / "record.zip")
                                                            : std::string();
}

constexpr std::array all{
    Target{"clip", &readClip, nullptr},
    Target{"marks", &readMarksTable, &marksSeed},
    Target{"contacts", &readContactsTable, &contactsSeed},
    Target{"scene", &readSceneDocument, &sceneSeed},
    Target{"session", &readSessionDocument, &sessionSeed},
    Target{"athlete", &readAthleteDocument, &athleteSeed},
    Target{"journal", &readJournal, &journalSeed},
    Target{"keypoints", &readCocoDocument, &cocoSeed},
    Target{"own", &readOwn, &ownSeed},
    Target{"record", &readRecord, &recordSeed},
    Target{"edits", &readEdits, &editsSeed},
    Target{"looks", &readLooks, &looksSeed},
};

} // namespace

std::span<const Target> targets()
{
    return all;
}

const Target& targetNamed(std::string_view name)
{
    const auto found = std::ranges::find(all, name, &Target::name);
    if (found == all.end()) {
        end("There is no target " + std::string(name) + ".");
    }
    return *found;
}

std::filesystem::path seedFolder()
{
    const char* asked = std::getenv("LATEMILE_SEEDS");
    return asked != nullptr ? asked : "seeds";
}

} // namespace latemile::fuzz
