// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/linked_film.hpp"

#include "core/store/clip_sums.hpp"
#include "core/store/hand_over.hpp"
#include "tests/catch.hpp"
#include "tests/core/store/edited_session.hpp"
#include "tests/scratch_folder.hpp"

using namespace latemile;
using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;

/// A film on the coach's own disk, linked into a session.
struct Linked : ScratchFolder {
    Linked()
    {
        Athlete athlete;
        athlete.code = "ilse";
        REQUIRE(writeAthlete(athlete, file("library/ilse/athlete.json", "")));
        auto day = dayWithMarks(2);
        day.clips.resize(1);
        (void)file("library/ilse/2026-08-29/clips/x", "");
        fs::remove(clip().parent_path() / "x");
        REQUIRE(writeSession(day, clip().parent_path().parent_path()));
        (void)file("disk/run.mp4", "what was filmed");
        REQUIRE(linkFilm(*this / "disk/run.mp4", clip()));
        REQUIRE(recordClipSum(clip()));
    }
    [[nodiscard]] fs::path clip() const
    {
        return path() / "library/ilse/2026-08-29/clips/fresh.mp4";
    }
};

} // namespace

TEST_CASE("a linked film is read where it is, and told when it is gone", "[store][link]")
{
    const Linked studio;
    CHECK(bytesOf(studio.clip()) == "what was filmed");
    CHECK(linkedFilmOf(studio.clip()) == studio / "disk/run.mp4");
    CHECK(linkedFilmsIn(studio / "library/ilse") == std::vector<fs::path>{studio / "disk/run.mp4"});
    CHECK(lostFilmSentence(studio.clip()).empty());
    fs::remove(studio / "disk/run.mp4");
    CHECK(lostFilmSentence(studio.clip()).find("disk/run.mp4") != std::string::npos);
    CHECK_FALSE(linkedFilmOf(studio / "library/ilse/athlete.json"));
}

TEST_CASE("a film that moved is found by its checksum under any name", "[store][link]")
{
    const Linked studio;
    fs::create_directories(studio / "archive/august");
    fs::rename(studio / "disk/run.mp4", studio / "archive/august/Ilse fresh.MP4");
    (void)studio.file("archive/run.mp4", "something else of that name");
    (void)studio.file("archive/august/film.mp4", "and of that kind");
    (void)studio.file("archive/august/copy.txt", "what was filmed");
    const auto found = findAgain(studio.clip(), studio / "archive");
    REQUIRE(found);
    CHECK(*found == studio / "archive/august/Ilse fresh.MP4");
    CHECK(bytesOf(studio.clip()) == "what was filmed");
    CHECK(studio.entries() == 3);
}

TEST_CASE("a film that is not found leaves the link as it was", "[store][link][refusals]")
{
    const Linked studio;
    fs::rename(studio / "disk/run.mp4", studio / "disk/run.bak");
    (void)studio.file("disk/run.mp4.d/run.mp4", "another");
    const auto found = findAgain(studio.clip(), studio / "disk");
    REQUIRE_FALSE(found);
    CHECK(found.error().kind == Error::Kind::NotFound);
    CHECK(linkedFilmOf(studio.clip()) == studio / "disk/run.mp4");
    const auto stopped = findAgain(studio.clip(), studio / "disk", [](double) { return false; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().kind == Error::Kind::Cancelled);
}

TEST_CASE("a film of the session's own is never replaced by a link", "[store][link][refusals]")
{
    const Linked studio;
    const auto own = studio.file("library/ilse/2026-08-29/clips/own.mp4", "copied in");
    CHECK_FALSE(linkFilm(studio / "disk/run.mp4", own));
    CHECK(bytesOf(own) == "copied in");
    CHECK_FALSE(findAgain(own, studio / "disk"));
}

TEST_CASE("a linked film goes along when a record is handed over", "[store][link][hand_over]")
{
    const Linked studio;
    REQUIRE(handOver(studio / "library/ilse", studio / "ilse.zip"));
    const auto back = takeIn(studio / "ilse.zip", studio / "elsewhere");
    REQUIRE(back);
    const auto clip = *back / "2026-08-29/clips/fresh.mp4";
    CHECK(bytesOf(clip) == "what was filmed");
    CHECK_FALSE(fs::is_symlink(clip));

    fs::remove(studio / "disk/run.mp4");
    const auto lost = handOver(studio / "library/ilse", studio / "again.zip");
    REQUIRE_FALSE(lost);
    CHECK(lost.error().sentence.find("disk/run.mp4") != std::string::npos);
    CHECK_FALSE(fs::exists(studio / "again.zip"));
}

TEST_CASE("a link that no session names, or to another file, is not handed over",
          "[store][link][hand_over][refusals]")
{
    const Linked studio;
    const auto secret = studio.file("home/key", "private");
    fs::create_symlink(secret, studio.clip().parent_path() / "x.txt");
    fs::create_symlink(studio / "nowhere", studio.clip().parent_path() / "removed.mp4");
    REQUIRE(handOver(studio / "library/ilse", studio / "ilse.zip"));
    CHECK(bytesOf(studio / "ilse.zip").find("private") == std::string::npos);

    fs::remove(studio.clip());
    fs::create_symlink(secret, studio.clip());
    const auto other = handOver(studio / "library/ilse", studio / "again.zip");
    REQUIRE_FALSE(other);
    CHECK(other.error().sentence.find("not the film that came in") != std::string::npos);
}
