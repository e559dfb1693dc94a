// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own_measures/own_measures_dialog.hpp"

#include "ui/document/session_document.hpp"
#include "ui/own_measures/own_measure_form.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <ranges>

namespace latemile::ui {
namespace {

constexpr int restMilliseconds = 150;

QString fieldName(OwnFault::Field field)
{
    switch (field) {
    case OwnFault::Field::Id:
        return OwnMeasuresDialog::tr("Id");
    case OwnFault::Field::Name:
        return OwnMeasuresDialog::tr("Name");
    case OwnFault::Field::Positive:
        return OwnMeasuresDialog::tr("More of it means");
    case OwnFault::Field::Unit:
        return OwnMeasuresDialog::tr("Unit");
    case OwnFault::Field::FormulaText:
        return OwnMeasuresDialog::tr("Formula");
    case OwnFault::Field::Floor:
        break;
    }
    return OwnMeasuresDialog::tr("Worth a word from");
}

/// "✗ Formula, column 12: ..."
QString told(const OwnFault& fault)
{
    const QString joint =
        fault.field == OwnFault::Field::FormulaText ? QStringLiteral(", ") : QStringLiteral(": ");
    return signFor(Check::State::Bad) + u' ' + fieldName(fault.field) + joint +
           fromUtf8(fault.sentence) + u'.';
}

} // namespace

OwnMeasuresDialog::OwnMeasuresDialog(SessionDocument& session, const ClipDocument* clip,
                                     QWidget* parent)
    : QDialog(parent), m_session(session), m_trial(clip), m_list(new QListWidget(this)),
      m_form(new OwnMeasureForm(this)), m_told(plainLabel({}, this))
{
    setWindowTitle(tr("Own measures"));
    resize(880, 640);
    auto* intro = quietLabel(tr("A formula over the points you mark, for all athletes of this "
                                "library. It is read, compared, printed and followed over the "
                                "re-films like any other measure; it has no cue."),
                             this);
    intro->setWordWrap(true);
    m_told->setWordWrap(true);
    setState(*m_told, "bad");
    auto* middle = new QHBoxLayout;
    middle->setSpacing(2 * gridStep);
    middle->addWidget(buildList());
    middle->addWidget(m_form, 1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(2 * gridStep);
    column->addWidget(intro);
    column->addLayout(middle, 1);
    column->addWidget(m_told);
    column->addWidget(buildButtons());
    m_pause.setSingleShot(true);
    m_pause.setInterval(restMilliseconds);
    connect(&m_pause, &QTimer::timeout, this, &OwnMeasuresDialog::tellRow);
    connect(m_form, &OwnMeasureForm::edited, this, &OwnMeasuresDialog::takeForm);
    connect(m_list, &QListWidget::currentRowChanged, this, &OwnMeasuresDialog::showRow);
    session.readOwnMeasures();
    const auto kept = session.ownMeasures().definitions();
    m_measures.assign(kept.begin(), kept.end());
    const QString fault = session.ownMeasuresFault();
    m_add->setEnabled(fault.isEmpty());
    m_keep->setEnabled(fault.isEmpty());
    say(fault.isEmpty() ? QString()
                        : fault + u' ' +
                              tr("Nothing was changed. Put the file right or take it "
                                 "away, then open this again."));
    fill(0);
}

QWidget* OwnMeasuresDialog::buildList()
{
    auto* side = new QWidget(this);
    m_list->setAccessibleName(tr("Own measures"));
    m_add = new QPushButton(tr("Add"), side);
    m_copy = new QPushButton(tr("Copy"), side);
    m_remove = new QPushButton(tr("Delete"), side);
    connect(m_add, &QPushButton::clicked, this, [this] {
        OwnMeasure first = exampleOwnMeasures().front();
        first.name = tr("New measure").toStdString();
        first.id = idFromName(tr("New measure")).toStdString();
        first.meaning.clear();
        add(std::move(first));
    });
    connect(m_copy, &QPushButton::clicked, this, &OwnMeasuresDialog::copyChosen);
    connect(m_remove, &QPushButton::clicked, this, &OwnMeasuresDialog::removeChosen);
    auto* row = new QHBoxLayout;
    row->setSpacing(gridStep / 2);
    for (QPushButton* button : {m_add, m_copy, m_remove}) {
        button->setAutoDefault(false);
        row->addWidget(button);
    }
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(m_list, 1);
    column->addLayout(row);
    side->setFixedWidth(32 * gridStep);
    return side;
}

QWidget* OwnMeasuresDialog::buildButtons()
{
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    m_keep = new QPushButton(tr("Keep"), buttons);
    m_keep->setProperty("rank", "main");
    buttons->addButton(m_keep, QDialogButtonBox::AcceptRole);
    // Return belongs to the fields: a formula half typed must not close the dialog.
    m_keep->setAutoDefault(false);
    buttons->button(QDialogButtonBox::Cancel)->setAutoDefault(false);
    connect(buttons, &QDialogButtonBox::accepted, this, &OwnMeasuresDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &OwnMeasuresDialog::reject);
    return buttons;
}

void OwnMeasuresDialog::fill(int row)
{
    const QSignalBlocker blocker(m_list);
    m_list->clear();
    for (int at = 0; at < static_cast<int>(m_measures.size()); ++at) {
        m_list->addItem(QString());
        nameRow(at);
    }
    m_list->setCurrentRow(std::min(row, m_list->count() - 1));
    showRow(m_list->currentRow());
}

/// A sign stands before the name of one that cannot be used as it is.
void OwnMeasuresDialog::nameRow(int row)
{
    const auto at = static_cast<std::size_t>(row);
    const QString name = fromUtf8(m_measures[at].name);
    m_list->item(row)->setText(faultOf(m_measures, at) ? signFor(Check::State::Bad) + u' ' + name
                                                       : name);
    m_list->item(row)->setToolTip(name.toHtmlEscaped());
}

bool OwnMeasuresDialog::isKept(const OwnMeasure& measure) const
{
    const auto kept = m_session.ownMeasures().definitions();
    return std::ranges::find(kept, measure.id, &OwnMeasure::id) != kept.end();
}

void OwnMeasuresDialog::showRow(int row)
{
    const bool any = row >= 0;
    m_form->setEnabled(any);
    m_copy->setEnabled(any);
    m_remove->setEnabled(any);
    if (any) {
        const OwnMeasure& measure = m_measures[static_cast<std::size_t>(row)];
        const bool follows =
            measure.id.starts_with(idFromName(fromUtf8(measure.name)).toStdString());
        m_form->setMeasure(measure, follows && !isKept(measure));
        tellRow();
    } else {
        m_form->setMeasure({}, false);
        m_form->tell(std::nullopt, m_add->isEnabled() ? tr("None yet. Add begins with one that "
                                                           "works, to be changed as you like.")
                                                      : QString());
    }
}

void OwnMeasuresDialog::takeForm()
{
    const int row = m_list->currentRow();
    if (row < 0) {
        return;
    }
    m_measures[static_cast<std::size_t>(row)] = m_form->measure();
    m_asked = false;
    say({});
    for (int at = 0; at < m_list->count(); ++at) {
        nameRow(at); // an id given twice is a fault of both
    }
    m_pause.start();
}

void OwnMeasuresDialog::tellRow()
{
    if (m_list->currentRow() < 0) {
        return;
    }
    const auto at = static_cast<std::size_t>(m_list->currentRow());
    const auto fault = faultOf(m_measures, at);
    m_form->tell(fault, fault ? ui::told(*fault) : m_trial.told(m_measures[at]));
}

std::string OwnMeasuresDialog::freeId(const std::string& wanted) const
{
    const auto taken = [this](const std::string& id) {
        return std::ranges::find(m_measures, id, &OwnMeasure::id) != m_measures.end();
    };
    std::string id = wanted;
    for (int number = 2; taken(id); ++number) {
        id = wanted + '_' + std::to_string(number);
    }
    return id;
}

void OwnMeasuresDialog::add(OwnMeasure measure)
{
    measure.id = freeId(measure.id);
    m_measures.push_back(std::move(measure));
    m_asked = false;
    fill(static_cast<int>(m_measures.size()) - 1);
    m_form->beginWithName();
}

void OwnMeasuresDialog::copyChosen()
{
    OwnMeasure copy = m_measures[static_cast<std::size_t>(m_list->currentRow())];
    copy.name = tr("%1, copy").arg(fromUtf8(copy.name)).toStdString();
    copy.id = idFromName(fromUtf8(copy.name)).toStdString();
    add(std::move(copy));
}

void OwnMeasuresDialog::removeChosen()
{
    const int row = m_list->currentRow();
    m_measures.erase(m_measures.begin() + row);
    m_asked = false;
    fill(row);
    m_list->setFocus();
}

QString OwnMeasuresDialog::told() const
{
    return m_told->text();
}

void OwnMeasuresDialog::say(const QString& sentence)
{
    m_told->setText(sentence);
    m_told->setVisible(!sentence.isEmpty());
}

void OwnMeasuresDialog::accept()
{
    for (std::size_t at = 0; at < m_measures.size(); ++at) {
        if (faultOf(m_measures, at)) {
            m_list->setCurrentRow(static_cast<int>(at));
            say(tr("%1 cannot be kept yet: the sentence below its formula says why.")
                    .arg(fromUtf8(m_measures[at].name)));
            return;
        }
    }
    const auto own = OwnMeasures::from(m_measures);
    const auto kept =
        own ? m_session.keepOwnMeasures(*own) : Outcome<void>(tl::unexpected<Error>(own.error()));
    if (!kept) {
        say(fromUtf8(kept.error().sentence));
        return;
    }
    QDialog::accept();
}

void OwnMeasuresDialog::reject()
{
    const bool changed = !std::ranges::equal(m_measures, m_session.ownMeasures().definitions());
    if (changed && !m_asked) {
        m_asked = true;
        say(tr("Your changes are not kept yet. Keep keeps them; Cancel once more drops them."));
        return;
    }
    QDialog::reject();
}

} // namespace latemile::ui
