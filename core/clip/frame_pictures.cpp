// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/frame_pictures.hpp"

#include <algorithm>

namespace latemile {

namespace {

constexpr auto none = Presentation::none;
/// A decoder may show frames slightly out of order; one that has not come this much later is not
/// going to come.
constexpr std::int64_t latestArrival = 16;

constexpr std::size_t framesBetweenQuestions = 16;

tl::unexpected<Error> openingStopped(const OpenedFile& file)
{
    return fail(Error::Kind::Cancelled, "Opening the clip " + file.name() + " was stopped.");
}

std::string counted(std::int64_t number, const char* one, const char* many)
{
    return number == 1 ? std::string(one) : std::to_string(number) + " " + many;
}

} // namespace

/// What one frame out of the decoder is to the clip.
struct FramePictures::Step {
    bool isEnd = false;
    std::int64_t rank = none; ///< none: a frame that is not shown, or not exact in this run
    SharedAvFrame frame;
};

FramePictures::FramePictures(FrameDecoder decoder, Presentation order)
    : m_decoder(std::move(decoder)), m_order(std::move(order))
{
}

Outcome<std::unique_ptr<FramePictures>> FramePictures::open(OpenedFile file,
                                                            std::vector<std::string>& remarks,
                                                            const std::function<bool(double)>& goOn)
{
    auto index = readPacketIndex(file, goOn);
    if (index.stopped) {
        return openingStopped(file);
    }
    if (index.packets.empty()) {
        return fail(Error::Kind::Damaged,
                    "The clip " + file.name() +
                        " holds no picture; copy it again from the camera or phone.");
    }
    auto known = orderFromPackets(file, index);
    const bool isKnown = known.has_value();
    Presentation order(index, std::move(known).value_or(std::vector<std::int64_t>{}));
    const int depth = order.reorderDepth();
    ASSIGN_OR_RETURN(auto decoder,
                     FrameDecoder::open(PacketReader(std::move(file), std::move(index)), depth));
    std::unique_ptr<FramePictures> pictures(
        new FramePictures(std::move(decoder), std::move(order)));
    if (!isKnown) {
        RETURN_IF_ERROR(pictures->decodeForOrder(goOn));
        remarks.push_back("The file does not say in which order its frames are shown; it was "
                          "decoded once to find out.");
    }
    RETURN_IF_ERROR(pictures->decodeFirst(remarks));
    return pictures;
}

/// The order in which the decoder shows the frames is the order of presentation by definition.
Outcome<void> FramePictures::decodeForOrder(const std::function<bool(double)>& goOn)
{
    const auto packets = index().packets.size();
    std::vector<std::int64_t> shown;
    std::vector<bool> seen(packets, false);
    RETURN_IF_ERROR(m_decoder.startAt(0));
    while (true) {
        ASSIGN_OR_RETURN(const auto decoded, m_decoder.next());
        if (!decoded.frame) {
            break;
        }
        const auto place = static_cast<std::size_t>(decoded.ordinal);
        if (index().packets[place].isShown && !seen[place]) {
            seen[place] = true;
            shown.push_back(decoded.ordinal);
        }
        const bool ask = goOn && place % framesBetweenQuestions == 0;
        if (ask && !goOn(static_cast<double>(place) / static_cast<double>(packets))) {
            return openingStopped(file());
        }
    }
    m_order = Presentation(index(), std::move(shown));
    return {};
}

/// What decoding from the start gave until the first key picture came.
struct FramePictures::Start {
    std::vector<std::int64_t> came; // ordinals of frames that are shown
    std::int64_t last = none;       // the highest rank among them
    bool isSound = false;           // the first key picture came, and came whole
    SharedAvFrame first;            // the one of the lowest rank
    std::int64_t firstRank = none;
};

std::vector<std::int64_t> FramePictures::firstKeys(std::size_t most) const
{
    std::vector<std::int64_t> keys;
    for (std::int64_t ordinal = 0; ordinal < std::ssize(index().packets); ++ordinal) {
        if (index().packets[static_cast<std::size_t>(ordinal)].isKey && keys.size() < most) {
            keys.push_back(ordinal);
        }
    }
    return keys;
}

Outcome<FramePictures::Start> FramePictures::decodeStart()
{
    Start start;
    const auto keys = firstKeys(1);
    const auto key = keys.empty() ? 0 : keys.front();
    const auto keyRank = m_order.rankOf(key);
    RETURN_IF_ERROR(m_decoder.startAt(0));
    while (m_order.frames() > 0 && (start.last == none || start.last < keyRank)) {
        ASSIGN_OR_RETURN(auto decoded, m_decoder.next());
        if (!decoded.frame) {
            break;
        }
        start.isSound = start.isSound || (decoded.ordinal == key && !decoded.isDamaged);
        const auto rank = m_order.rankOf(decoded.ordinal);
        if (rank == none) {
            continue;
        }
        start.came.push_back(decoded.ordinal);
        start.last = std::max(start.last, rank);
        if (!start.first || rank < start.firstRank) {
            start.first = shared(std::move(decoded.frame));
            start.firstRank = rank;
        }
    }
    return start;
}

/// Whether the decoder finds no fault with at least one of these key pictures.
Outcome<bool> FramePictures::anyDecodes(const std::vector<std::int64_t>& keys)
{
    for (const auto key : keys) {
        RETURN_IF_ERROR(m_decoder.startAt(key));
        for (std::int64_t came = 0; came < latestArrival; ++came) {
            ASSIGN_OR_RETURN(const auto decoded, m_decoder.next());
            if (!decoded.frame) {
                break;
            }
            if (decoded.ordinal == key && !decoded.isDamaged) {
                return true;
            }
        }
    }
    return false;
}

Outcome<void> FramePictures::decodeFirst(std::vector<std::string>& remarks)
{
    constexpr std::size_t keysTried = 4;
    ASSIGN_OR_RETURN(auto start, decodeStart());
    bool goesOn = start.isSound;
    if (!start.isSound) {
        ASSIGN_OR_RETURN(const bool isLocal, anyDecodes(firstKeys(keysTried)));
        if (!isLocal || !start.first) {
            // Faults in every picture are the writer's habit, or come from a cut before the first
            // of them, and are no damage.
            RETURN_IF_ERROR(m_decoder.tolerateFaults());
            ASSIGN_OR_RETURN(start, decodeStart());
            goesOn = start.isSound;
        }
    }
    if (!start.first) {
        return fail(Error::Kind::Damaged,
                    "No picture of " + file().name() +
                        " can be decoded; copy the clip again from the camera or phone.");
    }
    const bool isAlone = start.came.size() == 1 && start.last == 0;
    m_first = start.first;
    if (goesOn && start.last + 1 > std::ssize(start.came)) {
        leaveOut(std::move(start.came), start.last, remarks);
    } else if (goesOn && isAlone) {
        m_runStart = 0;
        m_lastRank = 0;
        m_last = m_first;
    }
    return {};
}

/// Frames at the very start may need pictures from before the file: a decoder leaves them out, and
/// so they are no frames of this clip.
void FramePictures::leaveOut(std::vector<std::int64_t> came, std::int64_t last,
                             std::vector<std::string>& remarks)
{
    const auto lost = last + 1 - std::ssize(came);
    const auto byRank = [this](std::int64_t a, std::int64_t b) {
        return m_order.rankOf(a) < m_order.rankOf(b);
    };
    std::sort(came.begin(), came.end(), byRank);
    const auto& all = m_order.shown();
    came.insert(came.end(), all.begin() + last + 1, all.end());
    m_order = Presentation(index(), std::move(came));
    remarks.push_back(counted(lost, "The first frame was", "frames at the start were") +
                      " left out: they build on pictures that are not in the file.");
}

std::int64_t FramePictures::groupStart(std::int64_t rank) const
{
    const auto key = m_order.keyOf(m_order.ordinalOf(rank));
    while (rank > 0 && m_order.keyOf(m_order.ordinalOf(rank - 1)) >= key) {
        --rank;
    }
    return rank;
}

std::vector<std::int64_t> FramePictures::groupStarts() const
{
    std::vector<std::int64_t> starts;
    starts.reserve(static_cast<std::size_t>(count()));
    for (std::int64_t rank = 0; rank < count(); ++rank) {
        const auto key = m_order.keyOf(m_order.ordinalOf(rank));
        auto start = rank;
        while (start > 0 && m_order.keyOf(m_order.ordinalOf(start - 1)) >= key) {
            start = starts[static_cast<std::size_t>(start - 1)];
        }
        starts.push_back(start);
    }
    return starts;
}

bool FramePictures::canGoOnTo(std::int64_t rank) const
{
    const auto key = m_order.keyOf(m_order.ordinalOf(rank));
    return m_runStart != none && rank > m_lastRank && key >= m_runStart &&
           key <= m_decoder.nextOrdinal();
}

Outcome<void> FramePictures::beginFor(std::int64_t rank)
{
    m_runStart = none;
    m_lastRank = none;
    m_last.reset();
    const auto key = m_order.keyOf(m_order.ordinalOf(rank));
    RETURN_IF_ERROR(m_decoder.startAt(key));
    m_runStart = key;
    return {};
}

Outcome<FramePictures::Step> FramePictures::step()
{
    ASSIGN_OR_RETURN(auto decoded, m_decoder.next());
    // Pictures shown before the key picture of this run lack what they build on: the decoder's
    // complaints about them say nothing of the file.
    const auto isExact = [this](std::int64_t ordinal) {
        return m_order.keyOf(ordinal) >= m_runStart;
    };
    if (const auto span = m_decoder.takeDamage()) {
        // A decoder of HEVC leaves such pictures out by itself and does not complain.
        const bool leavesOut = file().stream()->codecpar->codec_id == AV_CODEC_ID_HEVC;
        bool tellsOfFile = true;
        for (auto ordinal = std::max(span->first, m_runStart); ordinal <= span->last; ++ordinal) {
            tellsOfFile = tellsOfFile && (leavesOut || isExact(ordinal));
        }
        if (tellsOfFile) {
            m_damage.add(std::max(span->first, m_runStart), span->last);
        }
    }
    if (!decoded.frame) {
        return Step{.isEnd = true, .rank = none, .frame = {}};
    }
    if (!isExact(decoded.ordinal)) {
        return Step{};
    }
    const auto& packet = index().packets[static_cast<std::size_t>(decoded.ordinal)];
    if (decoded.isDamaged || !packet.isWhole) {
        m_damage.add(decoded.ordinal, decoded.ordinal);
    }
    return Step{.isEnd = false,
                .rank = m_order.rankOf(decoded.ordinal),
                .frame = shared(std::move(decoded.frame))};
}

/// Frames that should have come between two that did are lost, and what builds on them is wrong.
void FramePictures::noteGap(std::int64_t from, std::int64_t to)
{
    for (auto rank = from; rank < to; ++rank) {
        const auto ordinal = m_order.ordinalOf(rank);
        if (m_order.keyOf(ordinal) >= m_runStart) {
            m_damage.add(ordinal, ordinal);
        }
    }
}

/// An empty pointer where the frame did not come, or came damaged.
Outcome<SharedAvFrame> FramePictures::runTo(std::int64_t rank, const Passing& passing)
{
    while (true) {
        ASSIGN_OR_RETURN(const auto found, step());
        if (found.isEnd || found.rank > rank + latestArrival) {
            m_runStart = found.isEnd ? none : m_runStart;
            return SharedAvFrame{};
        }
        if (found.rank == none) {
            continue;
        }
        if (m_lastRank != none && found.rank > m_lastRank + 1) {
            noteGap(m_lastRank + 1, found.rank);
        }
        if (found.rank > m_lastRank) {
            m_lastRank = found.rank;
            m_last = found.frame;
        }
        const bool isSound = !m_damage.touches(m_order.ordinalOf(found.rank), m_order);
        if (isSound && passing && !passing(found.rank, found.frame) && found.rank != rank) {
            return fail(Error::Kind::Cancelled, "Another frame was asked for.");
        }
        if (found.rank == rank) {
            return isSound ? found.frame : SharedAvFrame{};
        }
    }
}

Outcome<SharedAvFrame> FramePictures::picture(std::int64_t rank, const Passing& passing)
{
    const auto ordinal = m_order.ordinalOf(rank);
    if (m_damage.touches(ordinal, m_order)) {
        return damagedAt(rank);
    }
    if (m_last && m_lastRank == rank) {
        if (passing) {
            passing(rank, m_last);
        }
        return m_last;
    }
    const Damage before = m_damage;
    if (!canGoOnTo(rank)) {
        RETURN_IF_ERROR(beginFor(rank));
    }
    ASSIGN_OR_RETURN(auto found, runTo(rank, passing));
    const auto key = m_order.keyOf(ordinal);
    if (!found && key > 0) {
        // Some writers mark as key frames pictures that do not stand alone; from the one before,
        // the decoder may have what it needs. If so, its complaints said nothing of the file.
        const Damage after = std::exchange(m_damage, before);
        m_order.setKeyOf(ordinal, m_order.keyBefore(key));
        RETURN_IF_ERROR(beginFor(rank));
        ASSIGN_OR_RETURN(found, runTo(rank, passing));
        if (!found) {
            m_order.setKeyOf(ordinal, key);
            m_damage = after;
        }
    }
    if (!found) {
        m_damage.add(ordinal, ordinal);
        return damagedAt(rank);
    }
    return found;
}

tl::unexpected<Error> FramePictures::damagedAt(std::int64_t rank) const
{
    return fail(Error::Kind::Damaged,
                "Frame " + std::to_string(rank) + " of " + file().name() +
                    " is damaged in the file and cannot be shown exactly; use frames of another "
                    "step.");
}

} // namespace latemile
