// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/checksum.hpp"

#include "core/whole_file.hpp"

extern "C" {
#include <libavutil/hash.h>
}

#include <fcntl.h>

#include <cerrno>
#include <memory>
#include <new>
#include <vector>

namespace latemile {

namespace {

/// One running sum of libavutil.
class Sum {
public:
    explicit Sum(const char* name)
    {
        AVHashContext* context = nullptr;
        if (av_hash_alloc(&context, name) < 0) { // both names are always there: memory ran out
            throw std::bad_alloc();
        }
        m_context.reset(context);
        av_hash_init(context);
    }
    void add(std::string_view bytes)
    {
        av_hash_update(m_context.get(), reinterpret_cast<const std::uint8_t*>(bytes.data()),
                       bytes.size());
    }
    [[nodiscard]] std::string hex()
    {
        std::string text(2 * AV_HASH_MAX_SIZE + 1, '\0');
        av_hash_final_hex(m_context.get(), reinterpret_cast<std::uint8_t*>(text.data()),
                          static_cast<int>(text.size()));
        text.resize(text.find('\0'));
        return text;
    }

private:
    struct Free {
        void operator()(AVHashContext* context) const { av_hash_freep(&context); }
    };
    std::unique_ptr<AVHashContext, Free> m_context;
};

} // namespace

std::uint32_t crc32Of(std::string_view bytes)
{
    Sum sum("CRC32");
    sum.add(bytes);
    return static_cast<std::uint32_t>(std::stoul(sum.hex(), nullptr, 16));
}

std::string sha256Of(std::string_view bytes)
{
    Sum sum("SHA256");
    sum.add(bytes);
    return sum.hex();
}

Outcome<std::string> sha256OfFile(const std::filesystem::path& file, FileSystem& files,
                                  const std::function<bool()>& goOn)
{
    const auto opened = openFile(files, file, O_RDONLY | O_NONBLOCK);
    if (!opened) {
        return readFault(file, opened.error());
    }
    Sum sum("SHA256");
    std::vector<char> block(1 << 20);
    while (true) {
        if (goOn && !goOn()) {
            return fail(Error::Kind::Cancelled, "Stopped while reading " + file.string() + ".");
        }
        const auto got = files.read(opened->descriptor(), block.data(), block.size());
        if (!got && got.error() != EINTR) {
            return readFault(file, got.error());
        }
        if (got && *got == 0) {
            return sum.hex();
        }
        sum.add({block.data(), got.value_or(0)});
    }
}

} // namespace latemile
