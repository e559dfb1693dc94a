// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outcome.hpp"

#include <algorithm>

namespace latemile {

namespace {

/// A sentence names files and fields that others have named: a line break in such a name makes no
/// second line, and an escape moves no terminal's cursor.
std::string onOneLine(std::string sentence)
{
    const auto isControl = [](unsigned char byte) { return byte < 0x20 || byte == 0x7f; };
    std::ranges::replace_if(sentence, isControl, '?');
    return sentence;
}

} // namespace

tl::unexpected<Error> fail(Error::Kind kind, std::string sentence, std::string detail)
{
    return tl::unexpected<Error>(Error{kind, onOneLine(std::move(sentence)), std::move(detail)});
}

} // namespace latemile
