// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/edit_history.hpp"

#include "core/document_schema.hpp"
#include "core/json_file.hpp"
#include "core/store/session_changes.hpp"
#include "core/whole_file.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace latemile {

namespace {

constexpr const char* fileName = "session.edits";
constexpr std::int64_t fileVersion = 1;

std::string textOf(const nlohmann::json& changes)
{
    return changes.is_null()
               ? std::string()
               : changes.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

/// Without what changed nothing, and as many as may be kept: outwards from where the document
/// stands, since an edit means nothing without those between.
EditHistory worthKeeping(const EditHistory& history)
{
    EditHistory kept;
    std::size_t bytes = 0;
    const auto fits = [&](const PastEdit& edit) {
        bytes += bytesIn(edit);
        return kept.edits.size() < mostKeptEdits && bytes <= mostKeptBytes;
    };
    for (std::size_t i = history.done; i > 0; --i) {
        const auto& edit = history.edits[i - 1];
        if (!edit.forward.empty() && !fits(edit)) {
            break;
        }
        if (!edit.forward.empty()) {
            kept.edits.push_back(edit);
        }
    }
    std::ranges::reverse(kept.edits);
    kept.done = kept.edits.size();
    for (std::size_t i = history.done; i < history.edits.size(); ++i) {
        const auto& edit = history.edits[i];
        if (!edit.forward.empty() && !fits(edit)) {
            break;
        }
        if (!edit.forward.empty()) {
            kept.edits.push_back(edit);
        }
    }
    return kept;
}

/// A line: its name and changes, which are JSON text already.
std::string lineOf(const PastEdit& edit)
{
    return "{\"name\":" + textOf(edit.name) + ",\"forward\":" + edit.forward +
           ",\"back\":" + edit.back + "}\n";
}

/// The line as JSON; nothing where it is none of ours, or was not written to its end.
std::optional<nlohmann::json> takeLine(std::string_view& rest)
{
    const auto end = rest.find('\n');
    if (end == std::string_view::npos) {
        return std::nullopt;
    }
    auto parsed = parseJson(rest.substr(0, end), fileName);
    rest.remove_prefix(end + 1);
    const bool isLine = parsed && needSchema(JsonField(*parsed, fileName), "edits");
    return isLine ? std::optional(std::move(*parsed)) : std::nullopt;
}

std::optional<PastEdit> editFrom(const nlohmann::json& line)
{
    const JsonField field(line, fileName);
    auto name = field.text("name");
    const auto forward = field.member("forward");
    const auto back = field.member("back");
    if (!name || !forward || !back) {
        return std::nullopt;
    }
    return PastEdit{std::move(*name), textOf(forward->value()), textOf(back->value())};
}

/// How many of the edits before the document's state, and then after it, lead anywhere.
EditHistory thatLeadSomewhere(EditHistory history, const Session& session)
{
    std::size_t first = history.done;
    for (auto state = Outcome<Session>(session); first > 0; --first) {
        state = withEdit(std::move(*state), history.edits[first - 1].back);
        if (!state) {
            break;
        }
    }
    std::size_t last = history.done;
    for (auto state = Outcome<Session>(session); last < history.edits.size(); ++last) {
        state = withEdit(std::move(*state), history.edits[last].forward);
        if (!state) {
            break;
        }
    }
    const auto at = [&history](std::size_t place) {
        return std::make_move_iterator(history.edits.begin() + static_cast<std::ptrdiff_t>(place));
    };
    return {{at(first), at(last)}, history.done - first};
}

} // namespace

std::size_t bytesIn(const PastEdit& edit)
{
    return edit.name.size() + edit.forward.size() + edit.back.size();
}

PastEdit editBetween(std::string name, const Session& before, const Session& now)
{
    return {std::move(name), textOf(changesBetween(before, now)),
            textOf(changesBetween(now, before))};
}

Outcome<Session> withEdit(Session session, std::string_view changes)
{
    if (changes.empty()) {
        return session;
    }
    ASSIGN_OR_RETURN(const auto parsed, parseJson(changes, fileName));
    return withChanges(std::move(session), JsonField(parsed, fileName));
}

Outcome<void> keepEditHistory(const EditHistory& history, std::string_view base,
                              const std::filesystem::path& sessionFolder, FileSystem& files)
{
    const auto kept = worthKeeping(history);
    std::string text =
        textOf({{"version", fileVersion}, {"base", base}, {"done", kept.done}}) + "\n";
    for (const auto& edit : kept.edits) {
        text += lineOf(edit);
    }
    return replaceRecord(sessionFolder / fileName, text, files);
}

EditHistory editHistoryOf(const Session& session, std::string_view base,
                          const std::filesystem::path& sessionFolder, FileSystem& files)
{
    const auto text = readWholeFile(sessionFolder / fileName, files);
    std::string_view rest = text ? std::string_view(*text) : std::string_view();
    const auto first = takeLine(rest);
    if (!first) {
        return {};
    }
    const JsonField head(*first, fileName);
    const auto version = needVersion(head, fileVersion);
    const auto belongsTo = head.text("base");
    const auto doneField = head.member("done");
    const auto done =
        doneField ? doneField->integer(0, mostKeptEdits) : tl::unexpected(doneField.error());
    if (!version || !belongsTo || *belongsTo != base || !done) {
        return {};
    }
    EditHistory history;
    while (const auto line = takeLine(rest)) {
        auto edit = editFrom(*line);
        if (!edit) {
            break;
        }
        history.edits.push_back(std::move(*edit));
    }
    // A file cut short within what is done cannot be counted from its beginning.
    history.done = static_cast<std::size_t>(*done);
    return history.done > history.edits.size() ? EditHistory{}
                                               : thatLeadSomewhere(std::move(history), session);
}

} // namespace latemile
