// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <clocale>

namespace latemile {

/// While it lives, names of files are UTF-8 on this thread, whatever the country's settings:
/// libarchive turns a zip's names into those of the thread's locale and back.
class Utf8Names {
public:
    Utf8Names() : m_utf8(::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr))
    {
        m_before = m_utf8 != nullptr ? ::uselocale(m_utf8) : nullptr;
    }
    Utf8Names(const Utf8Names&) = delete;
    Utf8Names& operator=(const Utf8Names&) = delete;
    ~Utf8Names()
    {
        if (m_utf8 != nullptr) {
            ::uselocale(m_before);
            ::freelocale(m_utf8);
        }
    }

private:
    locale_t m_utf8;
    locale_t m_before;
};

} // namespace latemile
