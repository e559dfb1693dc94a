// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/library_measures.hpp"

#include "core/json_file.hpp"
#include "core/store/document_fields.hpp"
#include "core/store/writers_turn.hpp"
#include "core/whole_file.hpp"

namespace latemile {

namespace {

std::filesystem::path fileIn(const std::filesystem::path& library)
{
    return library / "own_measures.json";
}

} // namespace

Outcome<OwnMeasures> ownMeasuresIn(const std::filesystem::path& library)
{
    std::error_code ignored;
    return std::filesystem::exists(fileIn(library), ignored) ? readOwnMeasures(fileIn(library))
                                                             : Outcome<OwnMeasures>();
}

Outcome<void> keepOwnMeasures(const OwnMeasures& own, const OwnMeasures& before,
                              const std::filesystem::path& library)
{
    ASSIGN_OR_RETURN(const auto turn, WritersTurn::take(library));
    ASSIGN_OR_RETURN(const auto there, ownMeasuresIn(library));
    if (there != before) {
        return fail(Error::Kind::Inconsistent,
                    fileIn(library).string() +
                        " was changed by somebody else meanwhile, so nothing was written. Open the "
                        "own measures again and enter yours anew.");
    }
    return replaceDocument(fileIn(library),
                           jsonText({{"version", storeVersion}, {"measures", toJson(own)}}));
}

} // namespace latemile
