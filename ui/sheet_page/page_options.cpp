// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/page_options.hpp"

#include "core/whole_file.hpp"
#include "ui/document/commands/set_about.hpp"
#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QBuffer>
#include <QCheckBox>
#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QImageReader>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSettings>
#include <QStandardPaths>
#include <QVBoxLayout>

namespace latemile::ui {
namespace {

constexpr int gesture = 300'000; ///< apart from those of the other leaves
constexpr int largestLogo = 800; ///< pixels: 10 cm at 200 dots per inch

QString logoFile()
{
    return QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) +
           QStringLiteral("/logo.png");
}

} // namespace

PageOptions::PageOptions(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_note(new QPlainTextEdit(this)),
      m_coach(new QLineEdit(this)), m_contact(new QLineEdit(this)),
      m_choose(new QPushButton(tr("Logo…"), this)), m_remove(new QPushButton(tr("Remove"), this)),
      m_logoTold(quietLabel({}, this)), m_logo(logoFile()), m_paper(new QComboBox(this)),
      m_large(new QCheckBox(tr("Large print"), this)),
      m_grey(new QCheckBox(tr("Black and white"), this)),
      m_inches(new QCheckBox(tr("Inches and miles"), this))
{
    build();
    recall();
    connectAll();
    tellAbout();
    tellLogo();
}

void PageOptions::build()
{
    m_note->setAccessibleName(tr("Note to the athlete"));
    m_note->setTabChangesFocus(true);
    m_note->setMinimumHeight(8 * gridStep);
    m_coach->setAccessibleName(tr("Coach"));
    m_contact->setAccessibleName(tr("Contact"));
    m_choose->setAccessibleName(tr("Choose a logo"));
    m_remove->setAccessibleName(tr("Remove the logo"));
    m_paper->setAccessibleName(tr("Paper"));
    m_paper->addItem(tr("A4"));
    m_paper->addItem(tr("Letter"));
    m_logoTold->setWordWrap(true);
    auto* logo = new QHBoxLayout;
    logo->setSpacing(gridStep / 2);
    logo->addWidget(m_choose);
    logo->addWidget(m_remove);
    logo->addWidget(m_logoTold, 1);
    auto* form = new QFormLayout;
    form->setSpacing(gridStep);
    form->addRow(tr("Coach"), m_coach);
    form->addRow(tr("Contact"), m_contact);
    form->addRow(tr("Logo"), logo);
    form->addRow(tr("Paper"), m_paper);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, gridStep, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(headingLabel(tr("Note to the athlete"), this));
    column->addWidget(m_note, 1);
    column->addLayout(form);
    for (QCheckBox* box : {m_large, m_grey, m_inches}) {
        column->addWidget(box);
    }
}

void PageOptions::connectAll()
{
    connect(m_note, &QPlainTextEdit::textChanged, this, &PageOptions::takeWords);
    connect(m_coach, &QLineEdit::textEdited, this, &PageOptions::takeWords);
    connect(m_contact, &QLineEdit::textEdited, this, &PageOptions::remember);
    connect(m_paper, &QComboBox::currentIndexChanged, this, &PageOptions::remember);
    for (QCheckBox* box : {m_large, m_grey, m_inches}) {
        connect(box, &QCheckBox::toggled, this, &PageOptions::remember);
    }
    connect(m_choose, &QPushButton::clicked, this, &PageOptions::askForLogo);
    connect(m_remove, &QPushButton::clicked, this, &PageOptions::removeLogo);
    connect(&m_context.session, &SessionDocument::aboutChanged, this, &PageOptions::tellAbout);
}

void PageOptions::recall()
{
    const QSettings settings;
    m_contact->setText(settings.value(QStringLiteral("sheet/contact")).toString());
    m_paper->setCurrentIndex(settings.value(QStringLiteral("sheet/letter")).toBool() ? 1 : 0);
    m_large->setChecked(settings.value(QStringLiteral("sheet/large")).toBool());
    m_grey->setChecked(settings.value(QStringLiteral("sheet/grey")).toBool());
    m_inches->setChecked(settings.value(QStringLiteral("sheet/inches")).toBool());
}

void PageOptions::remember()
{
    QSettings settings;
    settings.setValue(QStringLiteral("sheet/contact"), m_contact->text());
    settings.setValue(QStringLiteral("sheet/letter"), m_paper->currentIndex() == 1);
    settings.setValue(QStringLiteral("sheet/large"), m_large->isChecked());
    settings.setValue(QStringLiteral("sheet/grey"), m_grey->isChecked());
    settings.setValue(QStringLiteral("sheet/inches"), m_inches->isChecked());
    emit styleChanged();
}

SheetStyle PageOptions::style() const
{
    SheetStyle style;
    style.paper = m_paper->currentIndex() == 1 ? Paper::Letter : Paper::A4;
    style.largePrint = m_large->isChecked();
    style.blackAndWhite = m_grey->isChecked();
    style.inches = m_inches->isChecked();
    style.contact = m_contact->text();
    style.logo = m_logo;
    return style;
}

void PageOptions::tellAbout()
{
    m_filling = true;
    const SessionAbout& about = m_context.session.about();
    if (m_note->toPlainText() != fromUtf8(about.note)) {
        m_note->setPlainText(fromUtf8(about.note));
    }
    if (m_coach->text() != fromUtf8(about.coach)) {
        m_coach->setText(fromUtf8(about.coach));
    }
    m_filling = false;
}

void PageOptions::takeWords()
{
    if (m_filling) {
        return;
    }
    SessionAbout about = m_context.session.about();
    about.note = m_note->toPlainText().toStdString();
    if (about.coach != m_coach->text().toStdString()) {
        about.coach = m_coach->text().toStdString();
        QSettings().setValue(QStringLiteral("sheet/coach"), m_coach->text()); // of new sessions
    }
    // The typing in a field is one step back until something else is edited.
    m_context.session.history().push(
        new SetAbout(m_context.session, about, tr("write on the sheet"), gesture));
}

void PageOptions::askForLogo()
{
    const QString file = QFileDialog::getOpenFileName(this, tr("Choose a logo"), {},
                                                      tr("Pictures (*.png *.jpg *.jpeg *.svg)"));
    if (!file.isEmpty()) {
        setLogo(file);
    }
}

bool PageOptions::setLogo(const QString& file)
{
    QImageReader reader(file);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true);
    QImage image = reader.read();
    if (image.isNull()) {
        setState(*m_logoTold, "bad");
        m_logoTold->setText(tr("This file is no picture that can be read: choose a PNG or JPEG."));
        return false;
    }
    if (image.width() > largestLogo || image.height() > largestLogo) {
        image =
            image.scaled(largestLogo, largestLogo, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    }
    for (const QString& key : image.textKeys()) {
        image.setText(key, {}); // place and device may travel in them
    }
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "png");
    QDir().mkpath(QFileInfo(logoFile()).path());
    const auto kept =
        replaceFile(logoFile().toStdString(),
                    std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
    if (!kept) {
        setState(*m_logoTold, "bad");
        m_logoTold->setText(fromUtf8(kept.error().sentence));
        return false;
    }
    m_logo = image;
    tellLogo();
    emit styleChanged();
    return true;
}

void PageOptions::removeLogo()
{
    QFile::remove(logoFile());
    m_logo = {};
    tellLogo();
    emit styleChanged();
}

void PageOptions::tellLogo()
{
    m_remove->setEnabled(!m_logo.isNull());
    setState(*m_logoTold, "");
    m_logoTold->setText(m_logo.isNull() ? tr("none") : tr("on every sheet"));
}

} // namespace latemile::ui
