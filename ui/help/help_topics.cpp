// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/help_topics.hpp"

#include "ui/help/own_measures_topic.hpp"
#include "ui/keys/key_table.hpp"
#include "ui/keys/keys.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <array>

namespace latemile::ui {
namespace {

QString translated(const char* text)
{
    return QCoreApplication::translate("Help", text);
}

struct Stage {
    const char* page;
    const char* text;
};

constexpr std::array stages{
    Stage{QT_TRANSLATE_NOOP("Help", "Athletes"),
          QT_TRANSLATE_NOOP("Help", "Choose the athlete, begin today's session, ask the questions "
                                    "before filming, note the consent.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Filming"),
          QT_TRANSLATE_NOOP("Help",
                            "Bring in one clip fresh and one late in the run. Say what each "
                            "is, draw the scale and the plumb line, type the belt speed.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Marks"),
          QT_TRANSLATE_NOOP("Help", "Mark contacts and toe-offs, then the landmarks each cell asks "
                                    "for, at six steps of the near foot or more.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Readings"),
          QT_TRANSLATE_NOOP("Help", "Each number with its error; choose one to see the frame and "
                                    "the lines it came from.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Fresh | Fatigued"),
          QT_TRANSLATE_NOOP("Help", "What changed beyond its error, and what did not.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Sheet"),
          QT_TRANSLATE_NOOP("Help", "One page for the athlete with one or two cues. Measures are "
                                    "chosen before the numbers are looked at.")},
    Stage{QT_TRANSLATE_NOOP("Help", "Re-films"),
          QT_TRANSLATE_NOOP("Help", "The same measures at later visits, and what has held.")},
};

HelpTopic sessionTopic()
{
    HelpTopic topic{.id = QStringLiteral("session"),
                    .title = translated(QT_TRANSLATE_NOOP("Help", "How a session goes")),
                    .measure = nullptr,
                    .rows = {},
                    .picture = nullptr,
                    .caption = {}};
    for (const Stage& stage : stages) {
        topic.rows.emplace_back(translated(stage.page), translated(stage.text));
    }
    topic.rows.emplace_back(
        translated(QT_TRANSLATE_NOOP("Help", "Mind")),
        translated(QT_TRANSLATE_NOOP(
            "Help", "Latemile measures movement; it does not diagnose. Pain, dizziness or a red "
                    "flag is for a licensed clinician.")));
    return topic;
}

HelpTopic proposeTopic(const Keys& keys)
{
    HelpTopic topic{
        .id = QStringLiteral("propose"),
        .title = translated(QT_TRANSLATE_NOOP("Help", "Proposing landmarks")),
        .measure = nullptr,
        .rows = {},
        .picture = "pictures/proposals.png",
        .caption = translated(QT_TRANSLATE_NOOP(
            "Help",
            "Proposals on the sample clip: hollow grey dots, with a ring where the standard "
            "error is wider than the dot, before anybody has confirmed one."))};
    const auto add = [&topic](const char* heading, const char* text) {
        topic.rows.emplace_back(translated(heading), translated(text));
        return &topic.rows.back().second;
    };
    QString* text = add(
        QT_TRANSLATE_NOOP("Help", "What it does"),
        QT_TRANSLATE_NOOP("Help", "%1 looks at the whole clip and proposes all landmarks. Where "
                                  "you have marked no contact it finds contacts and toe-offs "
                                  "too, by how the shoes move in the pictures: the first "
                                  "within seconds, to be judged by %2 while it goes on. Marks "
                                  "and events you placed and marks that were followed are "
                                  "never replaced. Stopped, it keeps what it has; %3 finds "
                                  "contacts again."));
    *text = text->arg(keys.textOf("marks.propose"), keys.textOf("marks.accept_contact"),
                      keys.textOf("marks.find_contacts"));
    text = add(QT_TRANSLATE_NOOP("Help", "Which runner"),
               QT_TRANSLATE_NOOP("Help", "It finds a lone runner by itself. With somebody of her "
                                         "size beside her at the start it asks for a box round "
                                         "the runner; %1 asks for one where it took the wrong "
                                         "person."));
    *text = text->arg(keys.textOf("marks.runner_box"));
    text = add(QT_TRANSLATE_NOOP("Help", "Going through them"),
               QT_TRANSLATE_NOOP("Help", "%1 goes to the least sure cell. Set one step right by "
                                         "hand and confirm its cells with %2: the others learn "
                                         "from it how this runner's points lie, and its marks are "
                                         "followed through the clip; after further corrections "
                                         "%3 does so again. Then %4 accepts a row, as long as "
                                         "none of its points is unsure by more than 3 % of the "
                                         "trunk, or half as much again as a click of yours. A "
                                         "step's found contact and toe-off go with its cells and "
                                         "its row where they are unsure by 12 ms or one and a half "
                                         "frames at most; else you are shown the contact first."));
    *text = text->arg(keys.textOf("marks.next_cell"), keys.textOf("marks.accept"),
                      keys.textOf("marks.propose"), keys.textOf("marks.accept_step"));
    text = add(QT_TRANSLATE_NOOP("Help", "Near and far leg"),
               QT_TRANSLATE_NOOP("Help", "Where the legs are taken for each other, go to the "
                                         "first such frame: %1 exchanges them from there to "
                                         "where they change again, or to the clip's end."));
    *text = text->arg(keys.textOf("marks.exchange_legs"));
    add(QT_TRANSLATE_NOOP("Help", "Its limits"),
        QT_TRANSLATE_NOOP("Help", "Side views only. Heel, toe and ankle of the swinging foot are "
                                  "the worst, and what is cut off at the picture's edge. It was "
                                  "measured on rendered clips, not on people. Unconfirmed values "
                                  "enter no mean and no verdict."));
    return topic;
}

HelpTopic followTopic(const Keys& keys)
{
    HelpTopic topic{.id = QStringLiteral("follow"),
                    .title = translated(QT_TRANSLATE_NOOP("Help", "Following marks")),
                    .measure = nullptr,
                    .rows = {},
                    .picture = nullptr,
                    .caption = {}};
    const auto add = [&topic](const char* heading, const char* text) {
        topic.rows.emplace_back(translated(heading), translated(text));
        return &topic.rows.back().second;
    };
    QString* text = add(
        QT_TRANSLATE_NOOP("Help", "What it does"),
        QT_TRANSLATE_NOOP("Help", "Place the landmarks of one step, then %1 carries them through "
                                  "the clip. Followed marks are small and grey, each with a ring "
                                  "at its standard error; they are proposals until you accept "
                                  "them. Marks you placed are never moved."));
    *text = text->arg(keys.textOf("marks.follow"));
    text = add(QT_TRANSLATE_NOOP("Help", "Going through them"),
               QT_TRANSLATE_NOOP("Help", "%1 goes to the least sure cell. Drag what is off, then "
                                         "%2 accepts the cell and %3 the whole step; a doubtful "
                                         "cell is left to be looked at by itself. After a "
                                         "correction %4 follows again from all you placed."));
    *text = text->arg(keys.textOf("marks.next_cell"), keys.textOf("marks.accept"),
                      keys.textOf("marks.accept_step"), keys.textOf("marks.follow"));
    text =
        add(QT_TRANSLATE_NOOP("Help", "Contacts"),
            QT_TRANSLATE_NOOP("Help", "%1 asks for ankle, heel and toe of both feet on the frame "
                                      "shown; do so on three frames of one stride, with a foot "
                                      "on the ground, both in the air, the other foot down. "
                                      "Once they are followed, %2 proposes contacts and "
                                      "toe-offs: hollow, dashed bars with their errors as "
                                      "whiskers. %3 shows one, then its toe-off, and with that "
                                      "accepts it and shows the next; %4 accepts all, "
                                      "%5 removes one. A contact that you set or accept makes "
                                      "the toe-off of its stance yours too: look at both."));
    *text = text->arg(keys.textOf("marks.feet"), keys.textOf("marks.find_contacts"),
                      keys.textOf("marks.accept_contact"), keys.textOf("marks.accept_contacts"),
                      keys.textOf("marks.remove_step"));
    add(QT_TRANSLATE_NOOP("Help", "Its limits"),
        QT_TRANSLATE_NOOP("Help", "It knows the look of the places you marked, nothing else. Loose "
                                  "clothing, an arm before the hip, blur and a landmark that is "
                                  "covered mislead it. What it lost or found in two places is "
                                  "listed. Unconfirmed values enter no mean and no verdict; what "
                                  "you confirmed is read from your marks alone, as if nothing "
                                  "else were there."));
    return topic;
}

HelpTopic keysTopic(const Keys& keys)
{
    HelpTopic topic{.id = QStringLiteral("keys"),
                    .title = translated(QT_TRANSLATE_NOOP("Help", "Keys, as they are set now")),
                    .measure = nullptr,
                    .rows = {},
                    .picture = nullptr,
                    .caption = {}};
    for (const KeyEntry& entry : keyTable()) {
        const QString id = QString::fromLatin1(entry.id);
        const QString key = keys.of(id).toString(QKeySequence::NativeText);
        topic.rows.emplace_back(
            key.isEmpty() ? translated(QT_TRANSLATE_NOOP("Help", "no key")) : key,
            QStringLiteral("%1 (%2)").arg(Keys::nameOf(id),
                                          QCoreApplication::translate("Keys", entry.group)));
    }
    return topic;
}

QString feetText(Feet feet)
{
    switch (feet) {
    case Feet::Near:
        return translated(QT_TRANSLATE_NOOP("Help", "The leg nearest the camera alone."));
    case Feet::Each:
        return translated(
            QT_TRANSLATE_NOOP("Help", "Both feet from one side; left and right may be compared."));
    case Feet::Together:
        return translated(QT_TRANSLATE_NOOP(
            "Help", "Equal numbers of left and right steps together, never left against right: "
                    "the shoulders turn with the arms."));
    case Feet::Pairs:
        return translated(QT_TRANSLATE_NOOP("Help", "A left step and the right one after it."));
    case Feet::Behind:
        break;
    }
    return translated(QT_TRANSLATE_NOOP("Help", "Each foot, filmed from behind."));
}

HelpTopic topicOf(const Measure& measure)
{
    HelpTopic topic{.id = fromUtf8(measure.id),
                    .title = fromUtf8(measure.name),
                    .measure = &measure,
                    .rows = {},
                    .picture = nullptr,
                    .caption = {}};
    const auto add = [&topic](const char* heading, const QString& text) {
        if (!text.isEmpty()) {
            topic.rows.emplace_back(translated(heading), text);
        }
    };
    const QString unit = unitText(measure.unit);
    add(QT_TRANSLATE_NOOP("Help", "What it is"), fromUtf8(measure.meaning));
    add(QT_TRANSLATE_NOOP("Help", "Above zero"), capital(fromUtf8(measure.positive)) + u'.');
    add(QT_TRANSLATE_NOOP("Help", "Read at"), capital(fromUtf8(measure.instantWords)) + u'.');
    add(QT_TRANSLATE_NOOP("Help", "Feet"), feetText(measure.feet));
    if (!measure.isClass) {
        add(QT_TRANSLATE_NOOP("Help", "Worth a word from"),
            QCoreApplication::translate("Help",
                                        "a change of %1 on, if it is also beyond its error.")
                .arg(valueText(measure.floor, measure)));
    }
    add(QT_TRANSLATE_NOOP("Help", "Traps"), fromUtf8(measure.traps));
    add(QT_TRANSLATE_NOOP("Help", "Source"), fromUtf8(measure.source));
    return topic;
}

} // namespace

bool HelpTopic::holds(const QString& words) const
{
    QString all = title + u' ' + id;
    for (const auto& [heading, text] : rows) {
        all += u' ' + heading + u' ' + text;
    }
    return std::ranges::all_of(words.split(u' ', Qt::SkipEmptyParts), [&](const QString& word) {
        return all.contains(word, Qt::CaseInsensitive);
    });
}

std::vector<HelpTopic> helpTopics(const Keys& keys)
{
    std::vector<HelpTopic> topics{sessionTopic(), keysTopic(keys), proposeTopic(keys),
                                  followTopic(keys), ownMeasuresTopic(keys)};
    for (const Measure& measure : measureTable()) {
        topics.push_back(topicOf(measure));
    }
    return topics;
}

} // namespace latemile::ui
