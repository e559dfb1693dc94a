// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/still_pictures.hpp"

#include "core/clip/clip_reader.hpp"
#include "ui/picture/picture_image.hpp"

#include <map>

namespace latemile::ui {

Outcome<StillPictures> loadStills(const SheetContent& content)
{
    StillPictures pictures;
    std::map<std::filesystem::path, ClipReader> readers;
    for (const Still& still : content.stills) {
        auto found = readers.find(still.clip);
        if (found == readers.end()) {
            ClipOptions options;
            options.captureRate = still.captureRate;
            ASSIGN_OR_RETURN(auto reader, ClipReader::open(still.clip, options));
            found = readers.emplace(still.clip, std::move(reader)).first;
        }
        ASSIGN_OR_RETURN(const auto frame, found->second.frame(still.frame));
        pictures.images.push_back(imageOf(frame.picture));
    }
    return pictures;
}

} // namespace latemile::ui
