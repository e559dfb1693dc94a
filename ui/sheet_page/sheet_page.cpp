// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet_page/sheet_page.hpp"

#include "ui/document/session_document.hpp"
#include "ui/page/labels.hpp"
#include "ui/sheet/sheet_files.hpp"
#include "ui/sheet/sheet_painter.hpp"
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
#include <QVBoxLayout>

namespace latemile::ui {

SheetPage::SheetPage(const PageContext& context, QWidget* parent)
    : QWidget(parent), m_context(context), m_maker(new SheetMaker(context.session, this)),
      m_options(new SheetOptions(context, *m_maker, this)), m_paper(new PaperView(*m_maker, this)),
      m_pdf(new QPushButton(tr("Save PDF…"), this)), m_png(new QPushButton(tr("Save PNG…"), this)),
      m_print(new QPushButton(tr("Print…"), this)), m_told(plainLabel({}, this))
{
    build();
    m_paper->setStyle(m_options->style());
    connect(m_options, &SheetOptions::styleChanged, this,
            [this] { m_paper->setStyle(m_options->style()); });
    connect(m_maker, &SheetMaker::made, this, &SheetPage::tellMade);
    connect(m_pdf, &QPushButton::clicked, this,
            [this] { askAndExport(tr("PDF (*.pdf)"), QStringLiteral("pdf")); });
    connect(m_png, &QPushButton::clicked, this,
            [this] { askAndExport(tr("Pictures (*.png)"), QStringLiteral("png")); });
    connect(m_print, &QPushButton::clicked, this, &SheetPage::print);
    tellMade();
}

void SheetPage::build()
{
    m_pdf->setProperty("rank", "main");
    m_told->setWordWrap(true);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(gridStep / 2);
    buttons->addWidget(m_pdf);
    buttons->addWidget(m_png);
    buttons->addWidget(m_print);
    buttons->addStretch();
    auto* side = new QVBoxLayout;
    side->setSpacing(gridStep);
    side->addWidget(m_options, 1);
    side->addWidget(m_told);
    side->addLayout(buttons);
    m_options->setFixedWidth(40 * gridStep);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * gridStep, gridStep, 2 * gridStep, 2 * gridStep);
    row->setSpacing(2 * gridStep);
    row->addWidget(m_paper, 1);
    row->addLayout(side);
}

void SheetPage::tellMade()
{
    const bool there = m_maker->content().has_value();
    for (QPushButton* button : {m_pdf, m_png, m_print}) {
        button->setEnabled(there);
    }
}

bool SheetPage::exportTo(const QString& file)
{
    if (!m_maker->content()) {
        return false;
    }
    const SheetStyle style = m_options->style();
    const auto path = std::filesystem::path(file.toStdString());
    const auto done = path.extension() == ".png"
                          ? writeSheetPng(*m_maker->content(), m_maker->pictures(), path, style)
                          : writeSheetPdf(*m_maker->content(), m_maker->pictures(), path, style);
    setState(*m_told, done ? "" : "bad");
    m_told->setText(done ? tr("Written: %1").arg(file) : fromUtf8(done.error().sentence));
    return done.has_value();
}

void SheetPage::askAndExport(const QString& filter, const QString& ending)
{
    const QString folder = QString::fromStdString((m_context.session.folder() / "sheets").string());
    QDir().mkpath(folder);
    const QString name = QStringLiteral("%1/%2 %3.%4")
                             .arg(folder, fromUtf8(m_context.session.athlete().code),
                                  fromUtf8(m_context.session.about().date), ending);
    QString file = QFileDialog::getSaveFileName(this, tr("Save the sheet"), name, filter);
    if (file.isEmpty()) {
        return;
    }
    if (!file.endsWith(u'.' + ending, Qt::CaseInsensitive)) {
        file += u'.' + ending;
    }
    exportTo(file);
}

void SheetPage::print()
{
    QPrinter printer(QPrinter::HighResolution);
    const bool letter = m_options->style().paper == Paper::Letter;
    printer.setPageSize(QPageSize(letter ? QPageSize::Letter : QPageSize::A4));
    printer.setFullPage(true);
    if (QPrintDialog(&printer, this).exec() != QDialog::Accepted) {
        return;
    }
    QPainter painter;
    const bool begun = painter.begin(&printer);
    if (begun) {
        const QRectF page(QPointF(0, 0), printer.paperRect(QPrinter::DevicePixel).size());
        paintSheet(painter, page, *m_maker->content(), m_maker->pictures(), m_options->style());
    }
    setState(*m_told, begun ? "" : "bad");
    m_told->setText(begun ? tr("Sent to the printer.")
                          : tr("The printer did not take the page: is it switched on?"));
}

} // namespace latemile::ui
