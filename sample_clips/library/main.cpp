// SPDX-License-Identifier: GPL-3.0-or-later
// latemile-make-library FOLDER: writes athlete.json and the session.json files of the sample
// athlete from the truth beside the clips.
#include "core/store/session.hpp"
#include "sample_clips/library/careful_coach.hpp"

#include <array>
#include <cstdio>

namespace {

using namespace latemile;

struct SampleClip {
    const char* name;
    const char* condition;
    double minute;
    double exertion;
};

struct SampleDay {
    const char* date;
    const char* note;
    std::vector<const char*> cues;
    std::vector<SampleClip> clips;
};

const std::vector<SampleDay>& sampleDays()
{
    static const std::vector<SampleDay> days{
        {"2026-08-29",
         "You said the long easy run feels heavy after 45 minutes: this page shows what changes in "
         "it.",
         {},
         {{"fresh", "fresh", 6, 3}, {"late", "fatigued", 58, 6}}},
        {"2026-09-26",
         "A month on: you practised the cue on the last third of two runs a week. Keep to it.",
         {},
         {{"fresh", "fresh", 6, 3}, {"late", "fatigued", 60, 5}}},
        {"2026-10-24",
         "Two months on: the end of the long run feels to you like its middle. Well kept up.",
         {},
         {{"fresh", "fresh", 6, 3}, {"late", "fatigued", 61, 5}, {"rear", "other", 62, 5}}},
    };
    return days;
}

Outcome<SessionClip> clipOf(const std::filesystem::path& folder, const SampleClip& sample,
                            unsigned seed)
{
    ASSIGN_OR_RETURN(const auto truth, readSampleTruth(folder / "clips" /
                                                       (std::string(sample.name) + ".truth.json")));
    SessionClip clip;
    clip.file = "clips/" + std::string(sample.name) + ".mp4";
    clip.condition = sample.condition;
    clip.minute = sample.minute;
    clip.inclinePercent = 0.0;
    clip.shoes = "Daily trainers, 8 mm drop";
    clip.exertion = sample.exertion;
    clip.pain = false;
    clip.scene = drawnByCarefulCoach(truth);
    clip.marking = markedByCarefulCoach(truth, seed);
    return clip;
}

Outcome<void> makeLibrary(const std::filesystem::path& library)
{
    const auto folder = library / "ilse-varga";
    Athlete athlete;
    athlete.code = "IV-01";
    athlete.name = "Ilse Varga";
    athlete.heightCm = 167.0;
    athlete.legLengthCm = 88.0;
    athlete.massKg = 58.0;
    athlete.note =
        "Invented. Runs four times a week, trains for a first half marathon; no complaints.";
    athlete.consent =
        Consent{.givenBy = "Ilse Varga", .asGuardian = false, .date = "2026-08-29", .until = {}};
    RETURN_IF_ERROR(writeAthlete(athlete, folder / "athlete.json"));
    unsigned seed = 20260829;
    for (const auto& day : sampleDays()) {
        Session session;
        session.date = day.date;
        session.note = day.note;
        session.coach = "Runa Keel";
        session.cues.assign(day.cues.begin(), day.cues.end());
        session.screening = Screening{}; // asked, and nothing to tell
        for (const auto& sample : day.clips) {
            ASSIGN_OR_RETURN(const auto clip, clipOf(folder / day.date, sample, seed++));
            session.clips.push_back(clip);
        }
        RETURN_IF_ERROR(writeSession(session, folder / day.date));
    }
    return {};
}

} // namespace

int main(int argc, char* argv[])
{
    if (argc != 2) {
        std::fputs("usage: latemile-make-library LIBRARY_FOLDER\n", stderr);
        return 2;
    }
    if (const auto made = makeLibrary(argv[1]); !made) {
        std::fprintf(stderr, "%s\n", made.error().sentence.c_str());
        return 1;
    }
    return 0;
}
