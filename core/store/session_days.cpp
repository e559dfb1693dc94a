// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/session_days.hpp"

#include "core/whole_file.hpp"

#include <nlohmann/json.hpp>

namespace latemile {

namespace {

/// Takes the two texts out of the events of a parse; ends it where the depth is nobody's work.
class DayTaker final : public nlohmann::json_sax<nlohmann::json> {
public:
    [[nodiscard]] SessionDays days() const { return {m_date, m_next}; }

    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t&) override { return true; }
    bool binary(binary_t&) override { return true; }
    bool string(string_t& text) override
    {
        if (m_depth == 1 && m_wanted != nullptr) {
            *m_wanted = text;
        }
        return true;
    }
    bool start_object(std::size_t) override { return ++m_depth <= deepest; }
    bool end_object() override { return --m_depth >= 0; }
    bool start_array(std::size_t) override { return ++m_depth <= deepest; }
    bool end_array() override { return --m_depth >= 0; }
    bool key(string_t& name) override
    {
        if (m_depth == 1) {
            m_wanted = name == "date" ? &m_date : name == "next_refilm" ? &m_next : nullptr;
        }
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override
    {
        return false;
    }

private:
    static constexpr int deepest = 64;
    std::string m_date;
    std::string m_next;
    std::string* m_wanted{};
    int m_depth{};
};

} // namespace

Outcome<SessionDays> sessionDaysOf(const std::filesystem::path& folder)
{
    const auto file = folder / "session.json";
    ASSIGN_OR_RETURN(const auto text, readWholeFile(file));
    DayTaker taker;
    if (!nlohmann::json::sax_parse(text, &taker)) {
        return fail(Error::Kind::Damaged, file.string() + " is no JSON document.");
    }
    return taker.days();
}

} // namespace latemile
