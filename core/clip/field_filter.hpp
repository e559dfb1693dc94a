// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/outcome.hpp"

#include <memory>

extern "C" {
#include <libavfilter/avfilter.h>
#include <libavfilter/buffersink.h>
#include <libavfilter/buffersrc.h>
}

namespace latemile {

/// What is called of libavfilter. It is loaded when a clip is read field by field for the first
/// time and not linked: with all that it links in turn it would take a third of the time that each
/// start of a program and of a decoding worker takes.
struct FieldFilter {
    decltype(&avfilter_graph_alloc) makeGraph;
    decltype(&avfilter_graph_free) freeGraph;
    decltype(&avfilter_graph_create_filter) create;
    decltype(&avfilter_get_by_name) byName;
    decltype(&avfilter_link) link;
    decltype(&avfilter_graph_config) configure;
    decltype(&av_buffersrc_add_frame) feed;
    decltype(&av_buffersink_get_frame) collect;
};

/// The same at every call, for as long as the program lasts. A worker calls it before it is
/// confined, since it can open no file afterwards. Error: the library is not there, or is not the
/// version that Latemile was built with. From any thread.
[[nodiscard]] const Outcome<FieldFilter>& fieldFilter();

struct FilterGraphFreed {
    void operator()(AVFilterGraph* graph) const { fieldFilter()->freeGraph(&graph); }
};
using AvFilterGraph = std::unique_ptr<AVFilterGraph, FilterGraphFreed>;

} // namespace latemile
