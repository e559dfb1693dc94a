// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/clip_choice.hpp"

#include "app/batch/arguments.hpp"
#include "app/batch/marked_files.hpp"
#include "app/batch/session_folder.hpp"
#include "core/store/marked_clip.hpp"

namespace latemile::batch {

namespace {

Outcome<ChosenClip> fromSession(const ClipChoice& choice)
{
    ASSIGN_OR_RETURN(const auto opened, openSessionFolder(choice.clip));
    const auto* clip = findClip(opened.session, choice.condition);
    if (clip == nullptr) {
        return fail(Error::Kind::NotFound, "The session in " + choice.clip.string() + " has no " +
                                               choice.condition + " clip filmed from a side.");
    }
    ASSIGN_OR_RETURN(auto marked,
                     markedClipOf(choice.clip, opened.session, *clip, factsOf(opened.athlete)));
    return ChosenClip{choice.clip / clip->file, std::move(marked)};
}

Outcome<ChosenClip> fromFiles(const ClipChoice& choice)
{
    ASSIGN_OR_RETURN(auto marked, markedClipFrom({.clip = choice.clip,
                                                  .marks = choice.marks,
                                                  .contacts = choice.contacts,
                                                  .scene = choice.scene,
                                                  .athlete = choice.athlete}));
    return ChosenClip{choice.clip, std::move(marked)};
}

} // namespace

CLI::Option* addClipChoice(CLI::App& word, ClipChoice& choice)
{
    addPath(word, "CLIP", choice.clip, "The video file, or with --condition a session's folder");
    auto* condition =
        word.add_option("--condition", choice.condition,
                        "Instead of the files below: which clip of the session's folder")
            ->type_name("")
            ->check(CLI::IsMember({"fresh", "fatigued", "other"}));
    addInput(word, "--marks", choice.marks, "Landmarks (MARKS.csv or COCO keypoints)")
        ->excludes(condition);
    addInput(word, "--contacts", choice.contacts, "Contacts and toe-offs (CONTACTS.csv)")
        ->excludes(condition);
    addInput(word, "--scene", choice.scene, "Scale, plumb line, belt speed (SCENE.json)")
        ->excludes(condition);
    addInput(word, "--athlete", choice.athlete, "Who was filmed (athlete.json)")
        ->excludes(condition);
    return condition;
}

void needWhole(const ClipChoice& choice, const CLI::App& word)
{
    const bool files = !choice.marks.empty() && !choice.contacts.empty() && !choice.scene.empty();
    if (!files && choice.condition.empty()) {
        throw CLI::RequiredError(word.get_name() +
                                 ": --marks, --contacts and --scene (or --condition)");
    }
}

Outcome<ChosenClip> chosenClip(const ClipChoice& choice)
{
    return choice.condition.empty() ? fromFiles(choice) : fromSession(choice);
}

} // namespace latemile::batch
