// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>

namespace latemile {

/// Why something a file, a disk or a person can cause did not come about.
struct Error {
    enum class Kind { NotFound, Damaged, Unsupported, Inconsistent, DiskFull, Cancelled };
    Kind kind{};
    std::string sentence; ///< for the coach: what, where, what to do; "The clip ends after 41 of
                          ///< its 240 frames."
    std::string
        detail; ///< for the developer: libav's own words, a place in a document; may be empty
    bool operator==(const Error&) const = default;
};

/// A value, or the error that stands in its place.
template <class T>
class [[nodiscard]] Outcome : public tl::expected<T, Error> {
public:
    using tl::expected<T, Error>::expected;
};

/// `return fail(Error::Kind::Damaged, "The clip holds no picture.");` in any function that returns
/// an Outcome.
[[nodiscard]] tl::unexpected<Error> fail(Error::Kind kind, std::string sentence,
                                         std::string detail = {});

} // namespace latemile

#define LATEMILE_JOIN_(a, b) a##b
#define LATEMILE_JOIN(a, b) LATEMILE_JOIN_(a, b)

/// `ASSIGN_OR_RETURN(const auto text, readWholeFile(file));` names the value or returns the error.
#define ASSIGN_OR_RETURN(declaration, expression)                                                  \
    auto LATEMILE_JOIN(outcome_, __LINE__) = (expression);                                         \
    if (!LATEMILE_JOIN(outcome_, __LINE__)) {                                                      \
        return ::tl::unexpected<::latemile::Error>(                                                \
            std::move(LATEMILE_JOIN(outcome_, __LINE__)).error());                                 \
    }                                                                                              \
    declaration = *std::move(LATEMILE_JOIN(outcome_, __LINE__))

/// `RETURN_IF_ERROR(writeWholeFile(file, text));` goes on only where that worked.
#define RETURN_IF_ERROR(expression)                                                                \
    if (auto outcome_ = (expression); !outcome_) {                                                 \
        return ::tl::unexpected<::latemile::Error>(std::move(outcome_).error());                   \
    }
