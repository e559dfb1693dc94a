// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/marks_import.hpp"

#include "core/csv.hpp"
#include "core/exchange/coco.hpp"
#include "core/marks/marks_file.hpp"

namespace latemile {

namespace {

bool isJson(const std::filesystem::path& file)
{
    return file.extension() == ".json" || file.extension() == ".JSON";
}

} // namespace

Outcome<MarkMap> importMarks(const std::filesystem::path& file, const FrameIndex& index, int width,
                             int height)
{
    return isJson(file) ? readCoco(file, index, width, height)
                        : readMarks(file, index, width, height);
}

Outcome<std::variant<MarkMap, std::vector<Stance>>>
importMarking(const std::filesystem::path& file, const FrameIndex& index, int width, int height)
{
    using Either = std::variant<MarkMap, std::vector<Stance>>;
    if (!isJson(file)) {
        ASSIGN_OR_RETURN(const auto table, CsvTable::read(file));
        if (table.hasColumn("contact_s")) {
            ASSIGN_OR_RETURN(auto stances, readContacts(file, index));
            return Either(std::move(stances));
        }
    }
    ASSIGN_OR_RETURN(auto marks, importMarks(file, index, width, height));
    return Either(std::move(marks));
}

} // namespace latemile
