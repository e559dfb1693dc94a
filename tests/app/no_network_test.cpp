// SPDX-License-Identifier: GPL-3.0-or-later
// Client video never leaves the machine: no network module is linked, no socket to anywhere is
// opened, and a file that names other files does not get them opened. Watched from outside by
// readelf and strace.
#include "tests/app/marked_clip_files.hpp"
#include "tests/app/program.hpp"
#include "tests/catch.hpp"
#include "tests/project_folders.hpp"

#include <algorithm>
#include <sstream>

using namespace latemile::tests;

namespace {

namespace fs = std::filesystem;

/// The calls by which a program opens files and sockets, as strace writes them down.
struct Watched {
    Ran ran;
    std::string calls;
};

/// Nothing where this machine lets nobody be traced.
std::optional<Watched> watched(const fs::path& log, const std::string& program,
                               const std::vector<std::string>& arguments)
{
    // The leak check of sanitized builds cannot work in a program that is traced, and would end it.
    std::vector<std::string> words{
        "-f", "-qq",        "-E",   "ASAN_OPTIONS=detect_leaks=0",
        "-s", "256",        "-e",   "trace=socket,connect,sendto,open,openat,openat2",
        "-o", log.string(), program};
    words.insert(words.end(), arguments.begin(), arguments.end());
    Watched all{run("strace", words), bytesOf(log)};
    if (all.calls.empty() || all.ran.exit == 127 ||
        all.ran.err.find("PTRACE") != std::string::npos) {
        WARN("strace cannot watch a program on this machine: not checked.");
        return std::nullopt;
    }
    return all;
}

int countOf(const std::string& text, const std::string& words)
{
    int count = 0;
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) {
        ++count;
    }
    return count;
}

/// AF_UNIX is talk within the machine, as with the desktop; all others lead out of it.
int socketsOut(const std::string& calls)
{
    return countOf(calls, "socket(") - countOf(calls, "socket(AF_UNIX");
}

} // namespace

TEST_CASE("no program links a network module", "[batch][privacy][outside]")
{
    for (const char* program : {"latemile", "latemile-batch"}) {
        const auto file = binaryFolder() / "bin" / program;
        const auto ran = run("readelf", {"-d", file.string()});
        REQUIRE(ran.exit == 0);
        REQUIRE(ran.out.find("NEEDED") != std::string::npos);
        for (const char* module : {"Qt6Network", "Qt6WebSockets", "libcurl", "libssl", "libsoup"}) {
            CAPTURE(program, module);
            CHECK(ran.out.find(module) == std::string::npos);
        }
    }
}

TEST_CASE("the whole job opens no socket", "[batch][privacy][outside]")
{
    const MarkedClipFiles files;
    const auto session = files.sessionFolder();
    const auto out = files.folder / "sheet.pdf";
    const auto seen =
        watched(files.folder / "calls", LATEMILE_BATCH, {"sheet", session, "--out", out.string()});
    if (seen) {
        CAPTURE(seen->ran.err);
        CHECK(seen->ran.exit == 0);
        CHECK(fs::exists(out));
        CHECK(seen->calls.find("openat") != std::string::npos); // it was watched
        CHECK(socketsOut(seen->calls) == 0);
    }
}

TEST_CASE("a play list in a clip's clothes gets no other file and no socket opened",
          "[batch][privacy][refusals][outside]")
{
    const MarkedClipFiles files;
    const auto foreign = files.folder.file("foreign-secret.mp4", bytesOf(files.clip));
    const auto name = foreign.string();
    const std::vector<std::pair<std::string, std::string>> disguises{
        {"hls.mp4", "#EXTM3U\n#EXT-X-VERSION:3\n#EXT-X-TARGETDURATION:3\n#EXTINF:3,\n" + name +
                        "\n#EXT-X-ENDLIST\n"},
        {"hls-net.mp4", "#EXTM3U\n#EXT-X-TARGETDURATION:3\n#EXTINF:3,\n"
                        "http://127.0.0.1:9/a.ts\n#EXT-X-ENDLIST\n"},
        {"concat.mkv", "ffconcat version 1.0\nfile '" + name + "'\n"},
        {"dash.mp4", "<?xml version=\"1.0\"?><MPD xmlns=\"urn:mpeg:dash:schema:mpd:2011\" "
                     "type=\"static\"><Period><AdaptationSet><Representation id=\"1\" "
                     "bandwidth=\"1\"><BaseURL>" +
                         name + "</BaseURL></Representation></AdaptationSet></Period></MPD>"},
        {"session.mov", "v=0\r\no=- 0 0 IN IP4 127.0.0.1\r\ns=x\r\nc=IN IP4 127.0.0.1\r\n"
                        "t=0 0\r\nm=video 5004 RTP/AVP 96\r\na=rtpmap:96 H264/90000\r\n"},
        {"redirect.mov", "rtsptextRTSP://127.0.0.1:9/a.mov\r\n"},
        {"asx.avi",
         "<asx version=\"3.0\"><entry><ref href=\"http://127.0.0.1:9/a\"/></entry></asx>"},
        {"image-list.mp4", "file:" + name + "\n"},
        {"subtitle.mkv", "[Script Info]\nScriptType: v4.00+\n! " + name + "\n"},
    };
    for (const auto& [file, text] : disguises) {
        const auto clip = files.folder.file(file, text);
        const auto seen =
            watched(files.folder / "calls", LATEMILE_BATCH, {"inspect", clip.string()});
        if (!seen) {
            return;
        }
        CAPTURE(file, seen->ran.out, seen->ran.err);
        CHECK(seen->ran.exit == 1);
        CHECK(seen->ran.err.find(file) != std::string::npos);
        CHECK(seen->calls.find(file) != std::string::npos);
        CHECK(seen->calls.find("foreign-secret") == std::string::npos);
        CHECK(socketsOut(seen->calls) == 0);
    }
}
