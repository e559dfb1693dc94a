// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/practice/repeat_page.hpp"

#include "core/marks/marks_file.hpp"
#include "ui/keys/keys.hpp"
#include "ui/marks/marking_flow.hpp"
#include "ui/marks/marks_page.hpp"
#include "ui/page/labels.hpp"
#include "ui/picture/frame_view.hpp"
#include "ui/practice/repeat_view.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDate>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QPushButton>
#include <QTableWidget>
#include <QUndoStack>
#include <QVBoxLayout>

#include <random>

namespace latemile::ui {
namespace {

/// Ten of each landmark are enough to know an error to a quarter of itself; twelve leave room for
/// a landmark that is covered now and then.
constexpr std::size_t instantsAsked = 12;

std::vector<AskedCell> askedCells(const std::vector<RepeatCell>& plan)
{
    std::vector<AskedCell> cells;
    for (const RepeatCell& cell : plan) {
        AskedCell asked{{cell.step, cell.instant}, {}};
        for (const MarkKey& key : cell.asked) {
            asked.landmarks.push_back(key.landmark);
        }
        cells.push_back(std::move(asked));
    }
    return cells;
}

} // namespace

RepeatPage::RepeatPage(SessionDocument& session, ClipDocument& clip, Keys& keys, QWidget* parent)
    : QWidget(parent), m_session(session), m_clip(clip), m_keys(keys),
      m_column(new QVBoxLayout(this)), m_view(new RepeatView(this))
{
    m_column->setContentsMargins(0, gridStep, 0, gridStep);
    m_column->setSpacing(gridStep);
    m_column->addWidget(buildHead());
    m_told = plainLabel({}, this);
    m_told->setWordWrap(true);
    m_told->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    m_column->addWidget(m_told);
    m_view->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    m_column->addWidget(m_view, 1);
    m_view->hide();
    start();
}

RepeatPage::~RepeatPage()
{
    delete m_marks;
    m_selection.setClip(nullptr);
}

QWidget* RepeatPage::buildHead()
{
    auto* head = new QWidget(this);
    m_finish = new QPushButton(tr("Finish"), head);
    m_keep = new QPushButton(tr("Keep as my errors"), head);
    auto* other = new QPushButton(tr("Compare another coach's marks…"), head);
    auto* leave = new QPushButton(tr("End the repeat"), head);
    m_finish->setToolTip(tr("Set the marks placed so far against the first ones"));
    other->setToolTip(tr("MARKS.csv of this clip, as latemile-batch reads it"));
    m_keep->hide();
    connect(m_finish, &QPushButton::clicked, this, &RepeatPage::finish);
    connect(m_keep, &QPushButton::clicked, this, &RepeatPage::keep);
    connect(other, &QPushButton::clicked, this, &RepeatPage::chooseFile);
    connect(leave, &QPushButton::clicked, this, &RepeatPage::left);
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(2 * gridStep, 0, 2 * gridStep, 0);
    row->setSpacing(gridStep);
    row->addWidget(titleLabel(tr("Blind repeat"), head));
    row->addStretch();
    row->addWidget(m_keep);
    row->addWidget(m_finish);
    row->addWidget(other);
    row->addWidget(leave);
    return head;
}

void RepeatPage::start()
{
    auto copy = RepeatCopy::make(m_session, m_clip, instantsAsked, std::random_device{}());
    if (!copy) {
        m_finish->setEnabled(false);
        tell(fromUtf8(copy.error().sentence), "doubt");
        return;
    }
    m_copy = std::move(*copy);
    ClipDocument& clip = *m_copy->session().clips().front();
    m_selection.setClip(&clip);
    m_marks = new MarksPage({m_copy->session(), m_selection, m_keys}, this);
    m_marks->setAccessibleName(tr("Marks of the repeat"));
    m_marks->flow().askOnly(askedCells(m_copy->plan()));
    m_column->insertWidget(2, m_marks, 1);
    connect(&clip, &ClipDocument::markChanged, this, &RepeatPage::tellProgress);
    connect(&clip, &ClipDocument::opened, this, [this] {
        tellProgress();
        m_selection.setPlace(m_marks->flow().nextOpen(1));
        m_marks->view().setFocus();
    });
    tellProgress();
}

void RepeatPage::tellProgress()
{
    const std::size_t all = m_copy->plan().size();
    const std::size_t open = m_marks->flow().open().size();
    tell(open == 0
             ? tr("All %1 instants are marked again: finish to see how well they agree.").arg(all)
             : tr("Mark %1 more of %2 instants as if for the first time; your first marks stay "
                  "hidden and unchanged.")
                   .arg(open)
                   .arg(all),
         "");
}

void RepeatPage::tell(const QString& sentence, const char* state)
{
    m_told->setText(sentence);
    setState(*m_told, state);
}

void RepeatPage::finish()
{
    if (m_selection.clip() != nullptr) {
        show(m_selection.clip()->marking(), true);
    }
}

void RepeatPage::show(const Marking& second, bool isOwn)
{
    auto result = repeatResult(m_clip.marked(), second);
    if (!result) {
        tell(fromUtf8(result.error().sentence), "doubt");
        return;
    }
    m_result = std::move(*result);
    m_view->setResult(*m_result);
    m_view->show();
    m_finish->hide();
    if (m_marks) {
        m_marks->hide();
    }
    const bool isEnough = clickErrorsOf(*m_result) != ClickErrors{};
    m_keep->setVisible(isOwn && isEnough);
    tell(isOwn && !isEnough ? tr("%1 marks were placed twice. A landmark needs %2 before its error "
                                 "replaces the default: mark more instants another time.")
                                  .arg(m_result->pairs)
                                  .arg(fewestPairs)
                            : tr("%1 marks were placed twice.").arg(m_result->pairs),
         "");
    m_view->measures().setFocus();
}

void RepeatPage::keep()
{
    const std::string& name = m_session.about().coach;
    if (!m_result || name.empty()) {
        tell(tr("Your errors are kept under your name: type it on the Sheet page first."), "doubt");
        return;
    }
    const auto kept =
        m_session.keepCoach({.name = name,
                             .date = QDate::currentDate().toString(Qt::ISODate).toStdString(),
                             .pairs = m_result->pairs,
                             .clicks = clickErrorsOf(*m_result)});
    tell(kept ? tr("Kept: from now on %1's own errors stand in the readings in place of the "
                   "defaults.")
                    .arg(fromUtf8(name))
              : fromUtf8(kept.error().sentence),
         kept ? "good" : "bad");
}

void RepeatPage::compareWith(const std::filesystem::path& marksFile)
{
    const ClipFacts& facts = m_clip.feed().facts();
    auto marks = readMarks(marksFile, m_clip.index(), facts.width, facts.height);
    if (!marks) {
        tell(fromUtf8(marks.error().sentence), "bad");
        return;
    }
    show({.marks = std::move(*marks), .stances = m_clip.marking().stances}, false);
}

void RepeatPage::chooseFile()
{
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Another coach's marks of this clip"), {}, tr("Marks (*.csv)"));
    if (!file.isEmpty()) {
        compareWith(file.toStdString());
    }
}

QUndoStack* RepeatPage::history() const
{
    return m_copy && !m_result ? &m_copy->session().history() : nullptr;
}

MarksPage* RepeatPage::marks() const
{
    return m_marks;
}

const std::vector<RepeatCell>& RepeatPage::plan() const
{
    static const std::vector<RepeatCell> nothing;
    return m_copy ? m_copy->plan() : nothing;
}

QString RepeatPage::told() const
{
    return m_told->text();
}

} // namespace latemile::ui
