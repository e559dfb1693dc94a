// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/field_filter.hpp"

#include <dlfcn.h>

namespace latemile {

namespace {

/// The version whose headers were compiled: another one's structures may lie otherwise.
constexpr const char* libraryFile = "libavfilter.so." AV_STRINGIFY(LIBAVFILTER_VERSION_MAJOR);

template <class Function>
bool find(void* library, const char* name, Function& function)
{
    function = reinterpret_cast<Function>(::dlsym(library, name));
    return function != nullptr;
}

Outcome<FieldFilter> loaded()
{
    // Never closed: whoever holds a picture may need it until the end.
    void* library = ::dlopen(libraryFile, RTLD_LAZY | RTLD_LOCAL);
    FieldFilter filter{};
    const bool isWhole = library != nullptr &&
                         find(library, "avfilter_graph_alloc", filter.makeGraph) &&
                         find(library, "avfilter_graph_free", filter.freeGraph) &&
                         find(library, "avfilter_graph_create_filter", filter.create) &&
                         find(library, "avfilter_get_by_name", filter.byName) &&
                         find(library, "avfilter_link", filter.link) &&
                         find(library, "avfilter_graph_config", filter.configure) &&
                         find(library, "av_buffersrc_add_frame", filter.feed) &&
                         find(library, "av_buffersink_get_frame", filter.collect);
    if (!isWhole) {
        const char* words = ::dlerror();
        return fail(Error::Kind::Unsupported,
                    "Fields cannot be taken apart on this system; install " +
                        std::string(libraryFile) + " or read the clip frame by frame.",
                    words ? words : "");
    }
    return filter;
}

} // namespace

const Outcome<FieldFilter>& fieldFilter()
{
    static const auto ofThisProgram = loaded();
    return ofThisProgram;
}

} // namespace latemile
