// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/film/film_dialog.hpp"

#include "ui/athletes/consent_dialog.hpp"
#include "ui/document/clip_document.hpp"
#include "ui/document/session_document.hpp"
#include "ui/document/shown_clip.hpp"
#include "ui/film/film_work.hpp"
#include "ui/page/labels.hpp"
#include "ui/page/progress_box.hpp"
#include "ui/text/numbers.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDate>
#include <QDialogButtonBox>
#include <QDir>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

#include <filesystem>

namespace latemile::ui {
namespace {

constexpr const char* both = "both";

} // namespace

FilmDialog::FilmDialog(const SessionDocument& session, QWidget* parent)
    : QDialog(parent), m_session(session), m_clips(new QComboBox(this)),
      m_steps(new QSpinBox(this)), m_slower(new QDoubleSpinBox(this)),
      m_numbers(new QCheckBox(tr("Lines and numbers at contact and mid-stance"), this)),
      m_told(plainLabel({}, this)), m_save(new QPushButton(tr("Save film…"), this)),
      m_work(new FilmWork(this))
{
    setWindowTitle(tr("Film of the steps"));
    build();
    offerClips();
    new ProgressBox(*m_work, this);
    connect(m_save, &QPushButton::clicked, this, &FilmDialog::askAndSave);
    connect(m_clips, &QComboBox::currentIndexChanged, this, &FilmDialog::tellLength);
    connect(m_steps, &QSpinBox::valueChanged, this, &FilmDialog::tellLength);
    connect(m_slower, &QDoubleSpinBox::valueChanged, this, &FilmDialog::tellLength);
    connect(m_work, &FilmWork::made, this,
            [this](const QString& file) { tell(tr("Written: %1").arg(file), ""); });
    connect(m_work, &LongWork::failed, this, [this](const QString& why) { tell(why, "bad"); });
    tellLength();
}

void FilmDialog::build()
{
    constexpr int mostSteps = 20;
    m_steps->setRange(1, mostSteps);
    m_steps->setValue(2);
    m_slower->setRange(1.0, 16.0);
    m_slower->setDecimals(0);
    m_slower->setValue(4.0);
    m_slower->setSuffix(tr(" times"));
    m_numbers->setChecked(true);
    m_told->setWordWrap(true);
    m_save->setProperty("rank", "main");
    auto* form = new QFormLayout;
    form->setSpacing(gridStep);
    form->addRow(tr("&Clips"), m_clips);
    form->addRow(tr("S&teps of the near foot"), m_steps);
    form->addRow(tr("&Slower than real"), m_slower);
    form->addRow(QString(), m_numbers);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    buttons->addButton(m_save, QDialogButtonBox::AcceptRole);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * gridStep, 2 * gridStep, 2 * gridStep, 2 * gridStep);
    column->setSpacing(2 * gridStep);
    column->addLayout(form);
    column->addWidget(m_told);
    column->addWidget(buttons);
    m_told->setMinimumHeight(m_told->fontMetrics().lineSpacing() * 3);
    setMinimumWidth(56 * gridStep);
}

const ClipDocument* FilmDialog::clipOf(const char* condition) const
{
    const ClipDocument* clip = m_session.clipOf(condition);
    return clip != nullptr && clip->isOpen() && clip->readings() ? clip : nullptr;
}

void FilmDialog::offerClips()
{
    const bool fresh = clipOf("fresh") != nullptr;
    const bool fatigued = clipOf("fatigued") != nullptr;
    if (fresh && fatigued) {
        m_clips->addItem(tr("Fresh and fatigued side by side"), QString::fromLatin1(both));
    }
    if (fresh) {
        m_clips->addItem(tr("Fresh"), QStringLiteral("fresh"));
    }
    if (fatigued) {
        m_clips->addItem(tr("Fatigued"), QStringLiteral("fatigued"));
    }
}

FilmWish FilmDialog::wish() const
{
    FilmWish wish;
    wish.steps = m_steps->value();
    wish.slower = m_slower->value();
    wish.numbers = m_numbers->isChecked();
    const Session session = m_session.session();
    wish.measures = session.measures;
    if (m_clips->currentData().toString() == QLatin1String(both)) {
        wish.from = session.stills.freshStep;
        wish.fatiguedFrom = session.stills.fatiguedStep;
    }
    return wish;
}

Outcome<FilmPlan> FilmDialog::plan() const
{
    const QString chosen = m_clips->currentData().toString();
    if (chosen.isEmpty()) {
        return fail(Error::Kind::NotFound,
                    "A film needs a clip from the side that is marked: mark one step first.");
    }
    if (chosen == QLatin1String(both)) {
        return filmOf(shownClip(*clipOf("fresh")), shownClip(*clipOf("fatigued")), wish());
    }
    return filmOf(shownClip(*clipOf(chosen.toLatin1().constData())), wish());
}

/// How long the film will be, or why there is none.
void FilmDialog::tellLength()
{
    const QString missing = whyNoConsentToday(m_session.athlete());
    const auto planned = plan();
    m_save->setEnabled(missing.isEmpty() && planned.has_value());
    if (!missing.isEmpty()) {
        tell(missing, "bad");
    } else if (!planned) {
        tell(fromUtf8(planned.error().sentence), "bad");
    } else {
        const auto pictures = static_cast<double>(planned->sides.front().shots.size());
        tell(tr("The film takes %1 s. It stands a second at each contact and mid-stance.")
                 .arg(numberText(pictures / filmRate, 0)),
             "");
    }
}

void FilmDialog::askAndSave()
{
    const QString folder = QString::fromStdString((m_session.folder() / "sheets").string());
    QDir().mkpath(folder);
    const QString ending = QStringLiteral(".mp4");
    const QString name = QStringLiteral("%1/%2 %3%4")
                             .arg(folder, fromUtf8(m_session.athlete().code),
                                  fromUtf8(m_session.about().date), ending);
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Save the film"), name, tr("Films (*.mp4)"));
    if (!file.isEmpty()) {
        saveTo(file.endsWith(ending, Qt::CaseInsensitive) ? file : file + ending);
    }
}

void FilmDialog::saveTo(const QString& file)
{
    const auto planned = plan();
    if (!planned) {
        tell(fromUtf8(planned.error().sentence), "bad");
        return;
    }
    tell(tr("Making the film…"), "");
    m_work->make(*planned, std::filesystem::path(file.toStdString()));
}

QString FilmDialog::told() const
{
    return m_told->text();
}

void FilmDialog::tell(const QString& sentence, const char* state)
{
    setState(*m_told, state);
    m_told->setText(sentence);
}

} // namespace latemile::ui
