// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace latemile::tests {

/// Common practice, no source; the kinds are those of OWASP's pages on injection into HTML and CSV,
/// and of Unicode Technical Report 36 for what looks like something else.
inline std::vector<std::string> hostileNames()
{
    return {
        "<b>Ilse</b>",
        "<script>alert(1)</script>",
        "<img src=\"file:///etc/passwd\">",
        "<a href='http://127.0.0.1/'>x</a>",
        "&lt;b&gt; &amp; &#60;",
        "</body></html>",
        "<!-- ",
        "=1+1",
        "=HYPERLINK(\"http://127.0.0.1\",\"x\")",
        "+1",
        "-2+3",
        "@SUM(A1)",
        "\t=1+1",
        "\r=1+1",
        "|calc",
        "\"quoted\", and a comma",
        "'",
        "'; DROP TABLE athletes; --",
        "line\nline",
        "line\r\nline",
        "\n",
        " ",
        "  spaces around  ",
        "../../outside",
        "/etc/passwd",
        "..",
        ".",
        ".hidden",
        "a/b",
        "a\\b",
        "C:\\Users\\x",
        "CON",
        "file:///tmp/x",
        "~",
        "$(id)",
        "`id`",
        "%s%n%d %1 %2",
        "${jndi:x}",
        "\xE2\x80\xAEgnp.esli",                                 // U+202E, right to left from here
        "\xE2\x80\x8B",                                         // U+200B, no width
        "Ilse\xEF\xBB\xBFVarga",                                // a byte order mark inside
        "\xF0\x9F\x8F\x83\xE2\x80\x8D\xE2\x99\x80\xEF\xB8\x8F", // a running woman, of four signs
        "Zo\xC3\xAB",
        "Zoe\xCC\x88", // the same by eye, not by bytes
        "\xD8\xA5\xD9\x84\xD8\xB2\xD8\xA7",
        "null",
        "true",
        "1e999",
        "{\"version\":1}",
        "] } , \\u0000 \\",
        std::string("zero\0byte", 9),
        "\x01\x1F\x7F",
        std::string(10'240, 'n'),
    };
}

} // namespace latemile::tests
