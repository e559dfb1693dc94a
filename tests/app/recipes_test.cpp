// SPDX-License-Identifier: GPL-3.0-or-later
// The recipes for hundreds of clips, run as they stand, by GNU parallel and by a Slurm of this
// machine alone.
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <cstdlib>
#include <sstream>

using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;

const fs::path& recipes()
{
    static const fs::path folder = sourceFolder() / "resources" / "recipes";
    return folder;
}

/// A folder of clips, and one for what comes of them.
struct ClipFolder : ScratchFolder {
    ClipFolder()
    {
        ::setenv("LATEMILE_BATCH", LATEMILE_BATCH, 1);
        fs::create_directories(clips);
    }
    /// With its marks, contacts and scene beside it.
    void addMarked(const std::string& name)
    {
        fs::copy_file(files.clip, clips / (name + ".mp4"));
        fs::copy_file(files.marks, clips / (name + ".MARKS.csv"));
        fs::copy_file(files.contacts, clips / (name + ".CONTACTS.csv"));
        fs::copy_file(files.scene, clips / (name + ".SCENE.json"));
    }
    /// A runner of 24 frames with the scene alone beside it.
    void addRaw(const std::string& name)
    {
        const auto clip = (*this / "clips" / (name + ".mp4")).string();
        const auto made = run((binaryFolder() / "bin/latemile-make-clip").string(),
                              {clip, "--seed", "43", "--rate", "60", "--duration", "0.4", "--width",
                               "640", "--height", "360"});
        INFO(made.err);
        REQUIRE(made.exit == 0);
        fs::remove(clips / (name + ".MARKS.csv"));
        fs::remove(clips / (name + ".CONTACTS.csv"));
    }
    void addBroken(const std::string& name) { (void)file("clips/" + name + ".mp4", "no film"); }

    [[nodiscard]] std::string exitCodeOf(const std::string& name) const
    {
        return bytesOf(out / (name + ".mp4") / "exit_code");
    }
    [[nodiscard]] std::string readingsOf(const std::string& name) const
    {
        return bytesOf(out / (name + ".mp4") / "READINGS.csv");
    }

    MarkedClipFiles files;
    fs::path clips = *this / "clips";
    fs::path out = *this / "out";
};

Ran measureClips(const ClipFolder& folder)
{
    return run((recipes() / "measure_clips.sh").string(),
               {folder.clips.string(), folder.out.string(), "2"});
}

/// Exit codes by the last word of the job's command, from parallel's own log.
std::vector<std::string> failedJobs(const fs::path& log)
{
    std::vector<std::string> failed;
    std::istringstream lines(bytesOf(log));
    std::string line;
    std::getline(lines, line); // the heading
    while (std::getline(lines, line)) {
        std::vector<std::string> cells;
        std::istringstream row(line);
        for (std::string cell; std::getline(row, cell, '\t');) {
            cells.push_back(cell);
        }
        REQUIRE(cells.size() == 9);
        if (cells[6] != "0") {
            failed.push_back(cells[6] + " " + cells[8]);
        }
    }
    return failed;
}

/// The reading of the near ankle ahead of the hip, 40 px of half a centimetre in every step.
void checkFootAhead(const std::string& readings)
{
    CHECK_THAT(readings, containing("foot_ahead,cm,1,"));
    CHECK_THAT(readings, containing(",20,") || containing(",20.0"));
}

/// Lines without comments and white space at their ends.
std::vector<std::string> commandsOf(const std::string& script)
{
    std::vector<std::string> commands;
    std::istringstream lines(script);
    for (std::string line; std::getline(lines, line);) {
        if (!line.empty() && (line[0] != '#' || line.starts_with("#SBATCH"))) {
            commands.push_back(line);
        }
    }
    return commands;
}

} // namespace

TEST_CASE("GNU parallel measures a folder of clips and keeps each exit code", "[recipes][outside]")
{
    ClipFolder folder;
    folder.addMarked("Ilse fresh");
    folder.addRaw("raw");
    folder.addBroken("broken");
    const auto first = measureClips(folder);
    CAPTURE(first.out, first.err);
    CHECK(first.exit == 1);
    CHECK_THAT(first.out, containing("2 of 3 clips are measured."));
    CHECK_THAT(first.err, containing("broken.mp4: "));
    const auto failed = failedJobs(folder.out / "jobs.tsv");
    REQUIRE(failed.size() == 1);
    CHECK(failed[0].starts_with("1 "));
    CHECK_THAT(failed[0], containing("broken.mp4"));
    CHECK(folder.exitCodeOf("Ilse fresh") == "0\n");
    CHECK(folder.exitCodeOf("raw") == "0\n");
    CHECK(folder.exitCodeOf("broken") == "1\n");
    CHECK(folder.readingsOf("broken").empty());
    checkFootAhead(folder.readingsOf("Ilse fresh"));
    CHECK_THAT(bytesOf(folder.out / "raw.mp4" / "MARKS.csv"), containing(",proposed,"));
    CHECK_THAT(folder.readingsOf("raw"), containing("contact_time,"));

    // Again: only what failed, with a sound clip now, and what was cut off in the middle.
    const auto before = fs::last_write_time(folder.out / "raw.mp4" / "READINGS.csv");
    fs::remove(folder.clips / "broken.mp4");
    folder.addMarked("broken");
    fs::remove(folder.out / "Ilse fresh.mp4" / "exit_code");
    fs::remove(folder.out / "Ilse fresh.mp4" / "READINGS.csv");
    const auto second = measureClips(folder);
    CAPTURE(second.out, second.err);
    CHECK(second.exit == 0);
    CHECK_THAT(second.out, containing("3 of 3 clips are measured."));
    checkFootAhead(folder.readingsOf("broken"));
    checkFootAhead(folder.readingsOf("Ilse fresh"));
    CHECK(fs::last_write_time(folder.out / "raw.mp4" / "READINGS.csv") == before);
}

TEST_CASE("GNU parallel reviews pairs of clips that were not reviewed yet", "[recipes][outside]")
{
    const ClipFolder folder;
    for (const std::string name : {"clips/Kaya Lind", "clips/done"}) {
        (void)folder.file(name + ".fresh.mp4", "no film");
        (void)folder.file(name + ".late.mp4", "no film");
        (void)folder.file(name + ".SCENE.json", sceneDocument().dump());
    }
    (void)folder.file("out/done/SCREENING.json", "{}");
    const auto ran =
        run((recipes() / "review_pairs.sh").string(), {folder.clips.string(), folder.out.string()});
    CAPTURE(ran.out, ran.err);
    CHECK(ran.exit == 1); // jobs that failed
    CHECK_THAT(ran.err, containing("Kaya Lind.fresh.mp4"));
    const auto failed = failedJobs(folder.out / "pairs.tsv");
    REQUIRE(failed.size() == 1);
    CHECK(failed[0].starts_with("1 "));
    CHECK_THAT(failed[0], containing("Kaya Lind.late.mp4"));
}

// By hand: recipes_test "[whole-review]"
TEST_CASE("GNU parallel reviews a pair of clips without a hand", "[.][whole-review]")
{
    ClipFolder folder;
    folder.addRaw("Kaya Lind");
    fs::copy_file(folder.clips / "Kaya Lind.mp4", folder.clips / "Kaya Lind.fresh.mp4");
    fs::rename(folder.clips / "Kaya Lind.mp4", folder.clips / "Kaya Lind.late.mp4");
    const auto ran =
        run((recipes() / "review_pairs.sh").string(), {folder.clips.string(), folder.out.string()});
    CAPTURE(ran.out, ran.err);
    CHECK(ran.exit == 0);
    CHECK(fs::exists(folder.out / "Kaya Lind" / "SCREENING.json"));
}

TEST_CASE("a Slurm job array measures a list of clips, each task with its exit code",
          "[recipes][outside]")
{
    ClipFolder folder;
    folder.addMarked("fresh");
    folder.addBroken("broken");
    folder.addMarked("late");
    const auto list = folder.file("CLIPS.txt", (folder.clips / "fresh.mp4").string() + "\n" +
                                                   (folder.clips / "broken.mp4").string() + "\n" +
                                                   (folder.clips / "late.mp4").string() + "\n");
    // Submitted from the folder of the recipes, as they say; what tasks print goes elsewhere.
    const auto job = folder.file(
        "job", "cd '" + recipes().string() + "' && sbatch --quiet --array=1-3%2 --output='" +
                   (folder / "task-%a.txt").string() + "' measure_clips.sbatch '" + list.string() +
                   "' '" + folder.out.string() +
                   "' || exit\n"
                   "for i in $(seq 300); do [ -z \"$(squeue --noheader)\" ] && break; sleep 0.1\n"
                   "done\n"
                   "scontrol --oneliner show job | grep -o 'ArrayTaskId=[0-9]*\\|JobState=[A-Z]*\\|"
                   " ExitCode=[0-9:]*' | tr -d '\\n'\n");
    const auto ran = run((sourceFolder() / "tests/app/local_slurm").string(),
                         {(folder / "slurm").string(), "bash", job.string()});
    if (ran.exit == 77) {
        WARN(ran.err << "The recipe for Slurm is not checked.");
        return;
    }
    CAPTURE(ran.out, ran.err);
    REQUIRE(ran.exit == 0);
    CHECK_THAT(ran.out, containing("ArrayTaskId=1JobState=COMPLETED ExitCode=0:0"));
    CHECK_THAT(ran.out, containing("ArrayTaskId=2JobState=FAILED ExitCode=1:0"));
    CHECK_THAT(ran.out, containing("ArrayTaskId=3JobState=COMPLETED ExitCode=0:0"));
    CHECK_THAT(bytesOf(folder / "task-2.txt"), containing("broken.mp4: "));
    CHECK(folder.exitCodeOf("broken") == "1\n");
    checkFootAhead(folder.readingsOf("fresh"));
    checkFootAhead(folder.readingsOf("late"));
}

TEST_CASE("the document quotes the script for Slurm as it is", "[recipes]")
{
    const auto document = bytesOf(sourceFolder() / "DEVELOPERS.md");
    for (const auto& command : commandsOf(bytesOf(recipes() / "measure_clips.sbatch"))) {
        CAPTURE(command);
        CHECK((document.find("    " + command + "\n") != std::string::npos));
    }
}
