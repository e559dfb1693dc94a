// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/filming/set_up_view.hpp"

#include "ui/document/session_document.hpp"
#include "ui/filming/card_view.hpp"
#include "ui/filming/remark_list.hpp"
#include "ui/filming/set_up_form.hpp"
#include "ui/filming/set_up_memory.hpp"
#include "ui/page/labels.hpp"
#include "ui/text/words.hpp"
#include "ui/theme/tokens.hpp"

#include <QComboBox>
#include <QFileDialog>
#include <QGridLayout>
#include <QPageSize>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace latemile::ui {

SetUpView::SetUpView(SessionDocument& session, QWidget* parent)
    : QWidget(parent), m_session(session)
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(3 * gridStep);
    row->addWidget(buildGiven());
    row->addWidget(buildNumbers());
    row->addWidget(buildCard(), 1);
    CameraSetUp setUp = rememberedSetUp();
    setUp.statureCm = session.athlete().heightCm.value_or(setUp.statureCm);
    connect(m_form, &SetUpForm::changed, this, &SetUpView::tell);
    m_form->setSetUp(setUp);
}

QWidget* SetUpView::buildGiven()
{
    auto* side = new QWidget(this);
    side->setFixedWidth(36 * gridStep);
    m_form = new SetUpForm(side);
    m_fault = plainLabel({}, side);
    m_fault->setWordWrap(true);
    setState(*m_fault, "bad");
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addWidget(headingLabel(tr("The camera you will set up"), side));
    column->addWidget(m_form);
    column->addWidget(m_fault);
    QLabel* note = quietLabel(tr("Phones cut the picture when they film: the surest is to measure "
                                 "the width they see at the runner."),
                              side);
    note->setWordWrap(true);
    column->addWidget(note);
    column->addStretch();
    return side;
}

QWidget* SetUpView::buildNumbers()
{
    auto* inner = new QWidget(this);
    inner->setProperty("rank", "page");
    m_numbers = new QWidget(inner);
    m_rows = new QGridLayout(m_numbers);
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setVerticalSpacing(gridStep / 2);
    m_rows->setColumnStretch(0, 1);
    m_advice = new RemarkList(tr("Advice"), inner);
    auto* column = new QVBoxLayout(inner);
    column->setContentsMargins(0, 0, gridStep, 0);
    column->setSpacing(gridStep);
    column->addWidget(headingLabel(tr("What it will give"), inner));
    column->addWidget(m_numbers);
    column->addWidget(rule(inner));
    column->addWidget(m_advice);
    column->addStretch();
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFixedWidth(38 * gridStep);
    return scroll;
}

QWidget* SetUpView::buildCard()
{
    auto* side = new QWidget(this);
    m_paperView = new CardView(m_card, side);
    m_paper = new QComboBox(side);
    m_paper->addItems({QStringLiteral("A5"), QStringLiteral("A4")});
    m_paper->setAccessibleName(tr("Paper of the card"));
    m_print = new QPushButton(tr("Print card…"), side);
    m_pdf = new QPushButton(tr("Save card…"), side);
    m_told = plainLabel({}, side);
    m_told->setWordWrap(true);
    m_told->hide();
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(gridStep / 2);
    buttons->addStretch();
    buttons->addWidget(m_paper);
    buttons->addWidget(m_print);
    buttons->addWidget(m_pdf);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(gridStep);
    column->addLayout(buttons);
    column->addWidget(m_told);
    column->addWidget(m_paperView, 1);
    connect(m_print, &QPushButton::clicked, this, &SetUpView::print);
    connect(m_pdf, &QPushButton::clicked, this, &SetUpView::askAndExport);
    return side;
}

void SetUpView::tell()
{
    const CameraSetUp setUp = m_form->setUp();
    const auto geometry = pictureGeometry(setUp);
    m_fault->setText(geometry ? QString() : fromUtf8(geometry.error().sentence));
    m_fault->setVisible(!geometry);
    m_numbers->setVisible(geometry.has_value());
    for (QWidget* button : std::initializer_list<QWidget*>{m_print, m_pdf, m_paper}) {
        button->setEnabled(geometry.has_value());
    }
    m_card.reset();
    if (geometry) {
        rememberSetUp(setUp);
        m_card = setUpCard(setUp, *geometry, m_session.athlete().legLengthCm);
        tellNumbers(m_card->picture, m_card->errors);
        m_advice->setRemarks(adviceOn(setUp, *geometry));
    } else {
        m_advice->setRemarks({});
    }
    m_paperView->update();
}

void SetUpView::tellNumbers(const std::vector<NamedNumber>& picture,
                            const std::vector<NamedNumber>& errors)
{
    while (QLayoutItem* item = m_rows->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    int at = 0;
    const auto add = [&](const NamedNumber& row) {
        QLabel* number = plainLabel(row.number, m_numbers);
        number->setAlignment(Qt::AlignRight);
        m_rows->addWidget(plainLabel(row.name, m_numbers), at, 0);
        m_rows->addWidget(number, at++, 1);
    };
    for (const NamedNumber& row : picture) {
        add(row);
    }
    QLabel* heading = headingLabel(tr("One step, marked once, read to"), m_numbers);
    heading->setContentsMargins(0, gridStep, 0, 0);
    m_rows->addWidget(heading, at++, 0, 1, 2);
    for (const NamedNumber& row : errors) {
        add(row);
    }
}

CardPaper SetUpView::paper() const
{
    return m_paper->currentIndex() == 0 ? CardPaper::A5 : CardPaper::A4;
}

bool SetUpView::exportTo(const QString& file)
{
    if (!m_card) {
        return false;
    }
    const auto written = writeSetUpCard(*m_card, paper(), file.toStdString());
    m_told->setText(written ? tr("Written: %1").arg(file) : fromUtf8(written.error().sentence));
    setState(*m_told, written ? "" : "bad");
    m_told->show();
    return written.has_value();
}

void SetUpView::askAndExport()
{
    const QString file = QFileDialog::getSaveFileName(this, tr("Save the set-up card"),
                                                      tr("set-up card.pdf"), tr("PDF (*.pdf)"));
    if (!file.isEmpty()) {
        exportTo(file.endsWith(QStringLiteral(".pdf"), Qt::CaseInsensitive)
                     ? file
                     : file + QStringLiteral(".pdf"));
    }
}

void SetUpView::print()
{
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(QPageSize(paper() == CardPaper::A5 ? QPageSize::A5 : QPageSize::A4));
    printer.setFullPage(true);
    if (!m_card || QPrintDialog(&printer, this).exec() != QDialog::Accepted) {
        return;
    }
    QPainter painter;
    const bool begun = painter.begin(&printer);
    if (begun) {
        paintSetUpCard(painter, QRectF(QPointF(), printer.paperRect(QPrinter::DevicePixel).size()),
                       *m_card);
    }
    setState(*m_told, begun ? "" : "bad");
    m_told->setText(begun ? tr("Sent to the printer.")
                          : tr("The printer did not take the page: is it switched on?"));
    m_told->show();
}

} // namespace latemile::ui
