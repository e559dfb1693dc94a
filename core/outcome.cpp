// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outcome.hpp"

namespace latemile {

tl::unexpected<Error> fail(Error::Kind kind, std::string sentence, std::string detail)
{
    return tl::unexpected<Error>(Error{kind, std::move(sentence), std::move(detail)});
}

} // namespace latemile
