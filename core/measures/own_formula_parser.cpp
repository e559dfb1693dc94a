// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a coach's formula: one function a rule of the grammar in own_formula.hpp.
#include "core/measures/formula_forms.hpp"
#include "core/measures/formula_words.hpp"
#include "core/measures/own_formula.hpp"
#include "core/measures/own_formula_tree.hpp"

#include <algorithm>

namespace latemile {

namespace {

using Node = OwnFormula::Node;
using Is = OwnFormula::Node::Is;
using Kind = OwnFormula::Kind;
using Phase = OwnFormula::Phase;

/// Brackets within brackets: more than a person writes, less than a stack holds.
constexpr int deepest = 30;

std::string_view nameOfKind(Kind kind)
{
    return kind == Kind::Length ? "a length" : kind == Kind::Angle ? "an angle" : "a plain number";
}

class Parser {
public:
    explicit Parser(std::vector<FormulaWord> words) : m_words(std::move(words)) {}

    Outcome<Node> whole()
    {
        ASSIGN_OR_RETURN(auto node, formula());
        if (here().is != FormulaWord::Is::End) {
            return fault("here '" + here().text + "' is one too many; expected + - * / or the end");
        }
        return node;
    }

private:
    [[nodiscard]] const FormulaWord& here() const { return m_words[m_next]; }
    [[nodiscard]] bool isNext(std::string_view text) const
    {
        return here().is != FormulaWord::Is::End && here().text == text;
    }
    bool take(std::string_view text)
    {
        const bool taken = isNext(text);
        m_next += taken ? 1 : 0;
        return taken;
    }
    [[nodiscard]] tl::unexpected<Error> fault(std::string_view what) const
    {
        return formulaFault(here().column, what);
    }
    Outcome<void> need(std::string_view text)
    {
        if (!take(text)) {
            return fault("expected '" + std::string(text) + "' before '" + here().text + "'");
        }
        return {};
    }

    Outcome<Node> formula();
    Outcome<Node> product();
    Outcome<Node> factor();
    Outcome<Node> value();
    Outcome<Node> startedWith(const FormulaForm& form);
    Outcome<Node> bracket();
    Outcome<Node> extreme(Is is);
    Outcome<Node> twoPoints(Is is, Kind kind);
    Outcome<Node> threePoints();
    Outcome<Node> between();
    Outcome<void> addPoint(Node& node);
    Outcome<Instant> instant();
    Outcome<Phase> phase();
    Outcome<Node> joined(Is is, Node left, Node right, std::size_t column) const;

    std::vector<FormulaWord> m_words;
    std::size_t m_next{};
    int m_depth{};
};

Outcome<Node> Parser::joined(Is is, Node left, Node right, std::size_t column) const
{
    Node node{.is = is, .column = column};
    node.constant = left.constant && right.constant;
    if (is == Is::Sum || is == Is::Difference) {
        if (!left.constant && !right.constant && left.kind != right.kind) {
            return formulaFault(column, std::string(nameOfKind(left.kind)) + " and " +
                                            std::string(nameOfKind(right.kind)) +
                                            " cannot be added or subtracted");
        }
        node.kind = left.constant ? right.kind : left.kind;
    } else if (is == Is::Product) {
        if (left.kind != Kind::Number && right.kind != Kind::Number) {
            return formulaFault(column,
                                "two measured values cannot be multiplied; one of them must "
                                "be a plain number");
        }
        node.kind = left.kind == Kind::Number ? right.kind : left.kind;
    } else if (right.kind != Kind::Number && left.kind != right.kind) {
        return formulaFault(column, std::string(nameOfKind(left.kind)) + " cannot be divided by " +
                                        std::string(nameOfKind(right.kind)));
    } else {
        node.kind = right.kind == Kind::Number ? left.kind : Kind::Number;
    }
    node.parts.push_back(std::move(left));
    node.parts.push_back(std::move(right));
    return node;
}

Outcome<Node> Parser::formula()
{
    ASSIGN_OR_RETURN(auto left, product());
    while (isNext("+") || isNext("-")) {
        const auto column = here().column;
        const auto is = take("+") ? Is::Sum : Is::Difference;
        take("-");
        ASSIGN_OR_RETURN(auto right, product());
        ASSIGN_OR_RETURN(left, joined(is, std::move(left), std::move(right), column));
    }
    return left;
}

Outcome<Node> Parser::product()
{
    ASSIGN_OR_RETURN(auto left, factor());
    while (isNext("*") || isNext("/")) {
        const auto column = here().column;
        const auto is = take("*") ? Is::Product : Is::Quotient;
        take("/");
        ASSIGN_OR_RETURN(auto right, factor());
        ASSIGN_OR_RETURN(left, joined(is, std::move(left), std::move(right), column));
    }
    return left;
}

Outcome<Node> Parser::factor()
{
    const auto column = here().column;
    if (take("-")) {
        if (++m_depth > deepest) {
            return fault("too many signs and brackets within each other");
        }
        ASSIGN_OR_RETURN(auto inner, factor());
        --m_depth;
        Node node{.is = Is::Minus, .column = column, .kind = inner.kind};
        node.constant = inner.constant;
        node.parts.push_back(std::move(inner));
        return node;
    }
    ASSIGN_OR_RETURN(auto node, value());
    if (isNext("at")) {
        const auto at = here().column;
        take("at");
        ASSIGN_OR_RETURN(const auto when, instant());
        RETURN_IF_ERROR(spread(node, when, at));
    }
    return node;
}

Outcome<Node> Parser::value()
{
    const auto column = here().column;
    if (here().is == FormulaWord::Is::Number) {
        return Node{.is = Is::Number, .column = column, .number = m_words[m_next++].number};
    }
    if (take("(")) {
        return bracket();
    }
    if (const auto* form =
            here().is == FormulaWord::Is::Word ? formStartingWith(here().text) : nullptr) {
        ++m_next;
        return startedWith(*form);
    }
    return between();
}

/// After the word the form begins with.
Outcome<Node> Parser::startedWith(const FormulaForm& form)
{
    const Node alone{
        .is = form.is, .column = m_words[m_next - 1].column, .kind = form.kind, .constant = false};
    switch (form.is) {
    case Is::FlatFoot:
        RETURN_IF_ERROR(need("foot"));
        return alone;
    case Is::Leg:
    case Is::Trunk:
        return alone;
    case Is::Highest:
    case Is::Lowest:
        return extreme(form.is);
    case Is::Angle:
        return threePoints();
    default:
        return twoPoints(form.is, form.kind);
    }
}

Outcome<Node> Parser::bracket()
{
    if (++m_depth > deepest) {
        return fault("too many brackets within each other");
    }
    ASSIGN_OR_RETURN(auto node, formula());
    RETURN_IF_ERROR(need(")"));
    --m_depth;
    return node;
}

Outcome<Node> Parser::extreme(Is is)
{
    const auto column = m_words[m_next - 1].column;
    RETURN_IF_ERROR(need("("));
    ASSIGN_OR_RETURN(auto inner, bracket());
    if (const auto* wrong = notOnEveryFrame(inner)) {
        return formulaFault(wrong->column,
                            "inside highest and lowest stand points and numbers alone, without an "
                            "'at'; leg, trunk, flat foot and ground belong outside");
    }
    RETURN_IF_ERROR(need("in"));
    ASSIGN_OR_RETURN(const auto when, phase());
    Node node{.is = is, .column = column, .kind = inner.kind, .constant = false, .phase = when};
    collect(inner, node);
    if (node.landmarks.empty()) {
        return formulaFault(column, "there is no point in this bracket to look for");
    }
    if (std::ranges::adjacent_find(node.sides, std::not_equal_to<>()) != node.sides.end()) {
        return formulaFault(column, "the points of one highest or lowest must be of one side");
    }
    node.parts.push_back(std::move(inner));
    return node;
}

Outcome<void> Parser::addPoint(Node& node)
{
    auto side = BodySide::Near;
    if (take("left")) {
        side = BodySide::Left;
    } else if (take("right")) {
        side = BodySide::Right;
    }
    const auto landmark =
        here().is == FormulaWord::Is::Word ? landmarkNamed(here().text) : std::nullopt;
    if (!landmark) {
        return fault("'" + here().text + "' is no landmark; they are " + landmarksInWords());
    }
    ++m_next;
    node.landmarks.push_back(*landmark);
    node.sides.push_back(side);
    return {};
}

Outcome<Node> Parser::twoPoints(Is is, Kind kind)
{
    Node node{.is = is, .column = m_words[m_next - 1].column, .kind = kind, .constant = false};
    RETURN_IF_ERROR(addPoint(node));
    RETURN_IF_ERROR(need("to"));
    RETURN_IF_ERROR(addPoint(node));
    return node;
}

Outcome<Node> Parser::threePoints()
{
    Node node{.is = Is::Angle,
              .column = m_words[m_next - 1].column,
              .kind = Kind::Angle,
              .constant = false};
    RETURN_IF_ERROR(addPoint(node));
    RETURN_IF_ERROR(addPoint(node));
    RETURN_IF_ERROR(addPoint(node));
    return node;
}

Outcome<Node> Parser::between()
{
    Node node{.column = here().column, .kind = Kind::Length, .constant = false};
    RETURN_IF_ERROR(addPoint(node));
    if (take("ahead")) {
        RETURN_IF_ERROR(need("of"));
        node.is = Is::Ahead;
    } else if (take("above")) {
        node.is = isNext("ground") ? Is::AboveGround : Is::Above;
    } else {
        return fault("expected 'ahead of' or 'above' before '" + here().text + "'");
    }
    if (node.is == Is::AboveGround) {
        if (node.sides.front() != BodySide::Near) {
            return fault("the height over ground is had of the near side alone");
        }
        take("ground");
    } else {
        RETURN_IF_ERROR(addPoint(node));
    }
    return node;
}

Outcome<Instant> Parser::instant()
{
    for (std::size_t i = 0; i < instantCount; ++i) {
        if (const auto known = static_cast<Instant>(i); take(nameOf(known))) {
            return known;
        }
    }
    return fault("'" + here().text + "' is no instant; they are " + instantsInWords());
}

Outcome<Phase> Parser::phase()
{
    for (const auto known : formulaPhases()) {
        if (take(nameOf(known))) {
            return known;
        }
    }
    return fault("'" + here().text + "' is no phase; they are " + phasesInWords());
}

} // namespace

Outcome<OwnFormula> parseFormula(std::string_view text)
{
    ASSIGN_OR_RETURN(auto words, formulaWords(text));
    if (words.size() == 1) {
        return formulaFault(1, "the formula is empty");
    }
    OwnFormula formula;
    ASSIGN_OR_RETURN(formula.root, Parser(std::move(words)).whole());
    RETURN_IF_ERROR(gather(formula.root, formula));
    if (formula.landmarks.empty()) {
        return formulaFault(1, "the formula names no landmark, so there is nothing to measure");
    }
    if (formula.bySides && mixesSides(formula.root, true)) {
        return formulaFault(1, "name left or right with every point, or with none");
    }
    return formula;
}

} // namespace latemile
