// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/sheet_page.hpp"

#include "ui/athletes/consent_dialog.hpp"
#include "ui/document/commands/set_athlete.hpp"
#include "ui/document/selection.hpp"
#include "ui/document/session_document.hpp"
#include "ui/keys/keys.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet/sheet_files.hpp"
#include "ui/sheet/sheet_painter.hpp"
#include "ui/sheet_page/page_options.hpp"
#include "ui/sheet_page/paper_view.hpp"
#include "ui/sheet_page/sheet_maker.hpp"
#include "ui/sheet_page/sheet_options.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QPageSize>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace latemile::ui {

SheetPage::SheetPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(new SheetMaker(context.session, this)),
      m_options(new SheetOptions(context, *m_maker, this)), m_desk(new QScrollArea(this)),
      m_paper(new PaperView(*m_maker)), m_closer(new QPushButton(tr("Closer"), this)),
      m_pdf(new QPushButton(tr("Save PDF…"), this)), m_other(new QPushButton(tr("Save as…"), this)),
      m_print(new QPushButton(tr("Print…"), this)), m_told(plainLabel({}, this))
{
    setProperty("helpTopic", QStringLiteral("session"));
    build();
    connectAll();
    m_maker->setNameHidden(context.selection.areNamesHidden());
    m_paper->setStyle(m_options->page().style());
    tellMade();
}

void SheetPage::build()
{
    m_pdf->setProperty("rank", "main");
    m_closer->setCheckable(true);
    m_closer->setToolTip(tr("The paper as wide as the window, to be read"));
    m_told->setWordWrap(true);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(gridStep / 2);
    for (QPushButton* button : {m_pdf, m_other, m_print}) {
        buttons->addWidget(button);
    }
    buttons->addStretch();
    buttons->addWidget(m_closer);
    auto* side = new QVBoxLayout;
    side->setSpacing(gridStep);
    side->addWidget(m_options, 1);
    side->addWidget(m_told);
    side->addLayout(buttons);
    m_options->setFixedWidth(47 * gridStep);
    setTabOrder(m_print, m_closer);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    row->setSpacing(2 * gridStep);
    row->addWidget(buildPaper(), 1);
    row->addLayout(side);
}

QWidget* SheetPage::buildPaper()
{
    m_desk->setWidget(m_paper);
    m_desk->setWidgetResizable(false);
    m_desk->setAlignment(Qt::AlignCenter);
    m_desk->setFrameShape(QFrame::NoFrame);
    m_desk->setAccessibleName(tr("The sheet"));
    return m_desk;
}

void SheetPage::connectAll()
{
    connect(&m_options->page(), &PageOptions::styleChanged, this, [this] {
        m_paper->setStyle(m_options->page().style());
        fitPaper();
    });
    connect(&m_context.selection, &Selection::namesHiddenChanged, m_maker,
            &SheetMaker::setNameHidden);
    connect(m_maker, &SheetMaker::made, this, &SheetPage::tellMade);
    connect(m_closer, &QPushButton::toggled, this, &SheetPage::fitPaper);
    const auto savePdf = [this] { withConsent([this] { askAndExport({tr("PDF (*.pdf)")}); }); };
    const auto printIt = [this] { withConsent([this] { print(); }); };
    connect(m_pdf, &QPushButton::clicked, this, savePdf);
    connect(m_other, &QPushButton::clicked, this, [this] {
        withConsent([this] {
            askAndExport({tr("Pictures (*.png)"), tr("Pages for the screen (*.html)")});
        });
    });
    connect(m_print, &QPushButton::clicked, this, printIt);
    m_context.keys.action("sheet.pdf", this, savePdf);
    m_context.keys.action("sheet.print", this, printIt);
}

void SheetPage::fitPaper()
{
    const QSize room = m_desk->size() - QSize(2, 2);
    QSizeF size = m_paper->paper().scaled(room, Qt::KeepAspectRatio);
    if (m_closer->isChecked()) {
        const double width = room.width() - 2.0 * gridStep; // beside the scroll bar
        size = QSizeF(width, width * m_paper->paper().height() / m_paper->paper().width());
    }
    m_paper->setFixedSize(m_maker->content() ? size.toSize() : room);
}

void SheetPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    fitPaper();
}

void SheetPage::tellMade()
{
    const bool there = m_maker->content().has_value();
    // The grabbing of pictures waits for pages that are still at work.
    setProperty("busy", !there && m_maker->fault().isEmpty());
    for (QPushButton* button : {m_pdf, m_other, m_print}) {
        button->setEnabled(there);
    }
    fitPaper();
}

void SheetPage::withConsent(const std::function<void()>& act)
{
    if (!m_maker->content()) {
        return;
    }
    if (whyNoConsentToday(m_context.session.athlete()).isEmpty()) {
        act();
        return;
    }
    auto* dialog = new ConsentDialog(m_context.session.athlete(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, act] {
        m_context.session.history().push(
            new SetAthlete(m_context.session, dialog->athlete(), tr("note the consent"), -1));
        act();
    });
    dialog->open();
}

bool SheetPage::exportTo(const QString& file)
{
    if (!m_maker->content()) {
        return false;
    }
    if (const QString missing = whyNoConsentToday(m_context.session.athlete());
        !missing.isEmpty()) {
        setState(*m_told, "bad");
        m_told->setText(missing);
        return false;
    }
    const SheetStyle style = m_options->page().style();
    const auto path = std::filesystem::path(file.toStdString());
    const auto done = writeSheet(*m_maker->content(), m_maker->pictures(), path, style);
    setState(*m_told, done ? "" : "bad");
    m_told->setText(done ? tr("Written: %1").arg(file) : fromUtf8(done.error().sentence));
    return done.has_value();
}

void SheetPage::askAndExport(const QStringList& filters)
{
    const auto endingIn = [](const QString& filter) { // "PDF (*.pdf)"
        return filter.section(QStringLiteral("*"), -1).chopped(1);
    };
    const QString folder = QString::fromStdString((m_context.session.folder() / "sheets").string());
    QDir().mkpath(folder);
    const QString name =
        QStringLiteral("%1/%2 %3%4")
            .arg(folder, fromUtf8(m_context.session.athlete().code),
                 fromUtf8(m_context.session.about().date), endingIn(filters.front()));
    QString chosen = filters.front();
    QString file = QFileDialog::getSaveFileName(this, tr("Save the sheet"), name,
                                                filters.join(QStringLiteral(";;")), &chosen);
    if (file.isEmpty()) {
        return;
    }
    const bool ends = std::ranges::any_of(filters, [&](const QString& filter) {
        return file.endsWith(endingIn(filter), Qt::CaseInsensitive);
    });
    exportTo(ends ? file : file + endingIn(chosen));
}

void SheetPage::print()
{
    QPrinter printer(QPrinter::HighResolution);
    const bool letter = m_options->page().style().paper == Paper::Letter;
    printer.setPageSize(QPageSize(letter ? QPageSize::Letter : QPageSize::A4));
    printer.setFullPage(true);
    if (QPrintDialog(&printer, this).exec() == QDialog::Accepted) {
        printOn(printer);
    }
}

void SheetPage::printOn(QPrinter& printer)
{
    QPainter painter;
    const bool begun = painter.begin(&printer);
    if (begun) {
        const QRectF page(QPointF(0, 0), printer.paperRect(QPrinter::DevicePixel).size());
        paintSheet(painter, page, *m_maker->content(), m_maker->pictures(),
                   m_options->page().style());
    }
    setState(*m_told, begun ? "" : "bad");
    m_told->setText(begun ? tr("Sent to the printer.")
                          : tr("The printer did not take the page: is it switched on?"));
}

} // namespace latemile::ui
