// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/targets.hpp"

#include "core/clip/clip_reader.hpp"
#include "core/csv_cells.hpp"
#include "core/exchange/coco.hpp"
#include "core/json_file.hpp"
#include "core/marks/marks_file.hpp"
#include "core/measures/own_measures.hpp"
#include "core/scene/plane.hpp"
#include "core/store/hand_over.hpp"
#include "core/store/journal.hpp"
#include "core/store/session_changes.hpp"
#include "core/store/session_file.hpp"
#include "tests/core/measures/worked_example.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

namespace latemile::fuzz {

namespace {

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
void needSentence(const Outcome<T>& outcome)
{
    if (!outcome) {
        needSentence(outcome.error());
    }
}

const tests::ScratchFolder& scratch()
{
    static const tests::ScratchFolder folder;
    return folder;
}

void readClip(std::string_view bytes)
{
    const auto file = scratch().file("clip.mp4", bytes);
    auto clip = ClipReader::open(file);
    needSentence(clip);
    constexpr std::int64_t most = 24;
    for (std::int64_t n = 0; clip && n < std::min(clip->index().size(), most); ++n) {
        needSentence(clip->frame({n}));
    }
}

void readMarksTable(std::string_view bytes)
{
    needSentence(
        readMarks(scratch().file("marks.csv", bytes), testing::exampleIndex(), width, height));
}

std::string marksSeed()
{
    return marksText(testing::exampleClip().marking.marks, testing::exampleIndex());
}

void readContactsTable(std::string_view bytes)
{
    needSentence(readContacts(scratch().file("contacts.csv", bytes), testing::exampleIndex()));
}

std::string contactsSeed()
{
    return contactsText(testing::exampleClip().marking.stances);
}

void readSceneDocument(std::string_view bytes)
{
    const auto scene = readScene(scratch().file("scene.json", bytes));
    needSentence(scene);
    if (scene) {
        needSentence(Plane::from(*scene));
    }
}

std::string sceneSeed()
{
    auto scene = testing::exampleScene();
    scene.lens = Lens{900, 900, 640, 360, -0.2, 0.05, 0.001, -0.001, 0.0};
    scene.plane = PlaneCorners{{{{10, 20}, {900, 30}, {890, 600}, {20, 610}}},
                               {{{0, 100}, {200, 100}, {200, 0}, {0, 0}}}};
    return jsonText(toJson(scene));
}

void readSessionDocument(std::string_view bytes)
{
    (void)scratch().file("session.json", bytes);
    needSentence(readSession(scratch().path()));
}

std::string sessionSeed()
{
    const tests::ScratchFolder folder;
    return writeSession(tests::dayWithMarks(6), folder.path())
               ? tests::bytesOf(folder / "session.json")
               : std::string();
}

void readAthleteDocument(std::string_view bytes)
{
    needSentence(readAthlete(scratch().file("athlete.json", bytes)));
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
void readJournal(std::string_view bytes)
{
    const tests::ScratchFolder folder;
    if (!writeSession(tests::dayWithMarks(2), folder.path())) {
        end("The session could not be written.");
    }
    (void)folder.file("session.journal", bytes);
    auto file = SessionFile::open(folder.path(), {"R. Vale", "studio-2"});
    needSentence(file);
    if (file && file->recovery()) {
        needSentence(file->recover());
    }
    needSentence(readSession(folder.path()));
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

void readCocoDocument(std::string_view bytes)
{
    needSentence(
        readCoco(scratch().file("keypoints.json", bytes), testing::exampleIndex(), width, height));
}

std::string cocoSeed()
{
    return jsonText(cocoKeypoints(testing::exampleClip().marking, testing::exampleIndex(),
                                  {"fresh.mp4", width, height}));
}

void readOwn(std::string_view bytes)
{
    needSentence(readOwnMeasures(scratch().file("own_measures.json", bytes)));
}

std::string ownSeed()
{
    return R"({"version": 1, "measures": [{"id": "wrist_up", "name": "Wrist over hip",
 "formula": "height of wrist over hip at mid-stance", "unit": "cm", "positive": "hand higher"}]})";
}

void readRecord(std::string_view bytes)
{
    const tests::ScratchFolder library;
    needSentence(takeIn(scratch().file("record.zip", bytes), library / "library"));
}

std::string recordSeed()
{
    const tests::ScratchFolder folder;
    (void)folder.file("ilse/athlete.json", athleteSeed());
    (void)folder.file("ilse/2026-08-29/session.json", sessionSeed());
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

} // namespace latemile::fuzz
