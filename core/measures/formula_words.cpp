// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measures/formula_words.hpp"

#include <charconv>
#include <cmath>

namespace latemile {

namespace {

constexpr std::size_t longest = 500;
constexpr std::string_view signs = "+-*/()";

bool isLetter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool isDigit(char c)
{
    return c >= '0' && c <= '9';
}

std::size_t endOfWord(std::string_view text, std::size_t from)
{
    auto end = from;
    while (end < text.size() &&
           (isLetter(text[end]) ||
            (text[end] == '-' && end > from && end + 1 < text.size() && isLetter(text[end + 1])))) {
        ++end;
    }
    return end;
}

std::string lowerCase(std::string_view text)
{
    std::string lower(text);
    for (char& c : lower) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return lower;
}

Outcome<FormulaWord> numberAt(std::string_view text, std::size_t from)
{
    auto end = from;
    while (end < text.size() && (isDigit(text[end]) || text[end] == '.')) {
        ++end;
    }
    FormulaWord word{FormulaWord::Is::Number, std::string(text.substr(from, end - from)), 0.0,
                     from + 1};
    const auto* last = text.data() + end;
    const auto [stopped, fault] = std::from_chars(text.data() + from, last, word.number);
    if (fault != std::errc{} || stopped != last || !std::isfinite(word.number)) {
        return formulaFault(word.column, "'" + word.text + "' is no number; write 0.5 or 100");
    }
    return word;
}

} // namespace

tl::unexpected<Error> formulaFault(std::size_t column, std::string_view what)
{
    return fail(Error::Kind::Damaged, "column " + std::to_string(column) + ": " + std::string(what),
                std::to_string(column));
}

Outcome<std::vector<FormulaWord>> formulaWords(std::string_view text)
{
    if (text.size() > longest) {
        return formulaFault(longest, "the formula is longer than 500 characters");
    }
    std::vector<FormulaWord> words;
    for (std::size_t i = 0; i < text.size();) {
        if (text[i] == ' ' || text[i] == '\t') {
            ++i;
        } else if (isLetter(text[i])) {
            const auto end = endOfWord(text, i);
            words.push_back(
                {FormulaWord::Is::Word, lowerCase(text.substr(i, end - i)), 0.0, i + 1});
            i = end;
        } else if (isDigit(text[i]) || text[i] == '.') {
            ASSIGN_OR_RETURN(auto number, numberAt(text, i));
            i += number.text.size();
            words.push_back(std::move(number));
        } else if (signs.find(text[i]) != std::string_view::npos) {
            words.push_back({FormulaWord::Is::Sign, std::string(1, text[i]), 0.0, i + 1});
            ++i;
        } else {
            return formulaFault(i + 1, "this character has no meaning here; words, numbers and "
                                       "+ - * / ( ) have");
        }
    }
    words.push_back({FormulaWord::Is::End, "the end", 0.0, text.size() + 1});
    return words;
}

} // namespace latemile
