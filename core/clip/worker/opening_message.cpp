// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/clip/worker/opening_message.hpp"

#include "core/clip/worker/believable.hpp"

#include <algorithm>
#include <string_view>

namespace latemile {

namespace {

constexpr std::size_t longestText = 4096;
constexpr std::size_t mostRemarks = 64;
/// As many as fit the longest message.
constexpr std::size_t mostFrames = std::size_t{16} << 20;

/// Words of a worker are shown to a coach: they are one line and steer no terminal.
std::string takeLine(Unpacking& from)
{
    auto text = from.takeText(longestText);
    for (auto& c : text) {
        const auto code = static_cast<unsigned char>(c);
        c = code < 0x20 || code == 0x7f ? ' ' : c;
    }
    return text;
}

/// What a file says of its camera may be as long as the file.
void addLine(Packing& to, std::string_view text)
{
    to.add(text.substr(0, longestText));
}

void add(Packing& to, const UprightShape& shape)
{
    to.add(shape.storedWidth).add(shape.storedHeight).add(shape.pixelAspect);
    to.add(shape.orientation.clockwiseDegrees).add(shape.orientation.isMirrored);
}

UprightShape takeShape(Unpacking& from)
{
    UprightShape shape;
    shape.storedWidth = from.take<int>();
    shape.storedHeight = from.take<int>();
    shape.pixelAspect = from.take<double>();
    shape.orientation.clockwiseDegrees = from.take<int>();
    shape.orientation.isMirrored = from.takeBool();
    return shape;
}

/// All but what the shape and the index say as well.
void add(Packing& to, const ClipFacts& facts)
{
    for (const auto& text : {facts.container, facts.codec, facts.pixelFormat, facts.colour}) {
        addLine(to, text);
    }
    to.add(facts.highDynamicRange).add(facts.interlaced);
    to.add(facts.containerRate).add(facts.captureRate).add(facts.slowMotion);
    addLine(to, facts.captureRateFrom);
    addLine(to, facts.camera);
    to.add(facts.variableRate).add(facts.longestGap).add(facts.duration.count());
    to.add(static_cast<std::uint64_t>(facts.remarks.size()));
    for (const auto& remark : facts.remarks) {
        addLine(to, remark);
    }
}

ClipFacts takeFacts(Unpacking& from, const UprightShape& shape)
{
    ClipFacts facts;
    facts.container = takeLine(from);
    facts.codec = takeLine(from);
    facts.pixelFormat = takeLine(from);
    facts.colour = takeLine(from);
    facts.highDynamicRange = from.takeBool();
    facts.interlaced = from.takeBool();
    facts.containerRate = from.take<double>();
    facts.captureRate = from.take<double>();
    facts.slowMotion = from.take<double>();
    facts.captureRateFrom = takeLine(from);
    facts.camera = takeLine(from);
    facts.variableRate = from.takeBool();
    facts.longestGap = from.take<double>();
    facts.duration = Seconds{from.take<double>()};
    const auto remarks = from.take<std::uint64_t>();
    for (std::uint64_t i = 0; i < std::min<std::uint64_t>(remarks, mostRemarks); ++i) {
        facts.remarks.push_back(takeLine(from));
    }
    facts.storedWidth = shape.storedWidth;
    facts.storedHeight = shape.storedHeight;
    facts.rotationDegrees = shape.orientation.clockwiseDegrees;
    facts.mirrored = shape.orientation.isMirrored;
    facts.pixelAspect = shape.pixelAspect;
    return facts;
}

} // namespace

Packing packed(const OpeningQuestion& question)
{
    const auto& options = question.options;
    Packing packing;
    packing.add(question.name).add(question.size).add(options.fieldsAsFrames);
    packing.add(options.captureRate.has_value()).add(options.captureRate.value_or(0));
    packing.add(options.videoStream.has_value()).add(options.videoStream.value_or(0));
    packing.add(options.goOn != nullptr);
    return packing;
}

std::optional<OpeningQuestion> openingQuestion(std::span<const std::byte> bytes)
{
    Unpacking from(bytes);
    OpeningQuestion question;
    question.name = from.takeText(longestText);
    question.size = from.take<std::int64_t>();
    question.options.fieldsAsFrames = from.takeBool();
    const bool statesRate = from.takeBool();
    const auto rate = from.take<double>();
    const bool statesStream = from.takeBool();
    const auto stream = from.take<int>();
    question.options.captureRate = statesRate ? std::optional(rate) : std::nullopt;
    question.options.videoStream = statesStream ? std::optional(stream) : std::nullopt;
    if (from.takeBool()) {
        question.options.goOn = [](double) { return true; };
    }
    return from.isWhole() ? std::optional(std::move(question)) : std::nullopt;
}

Packing packed(const OpeningAnswer& answer)
{
    Packing packing;
    add(packing, answer.shape);
    add(packing, answer.facts);
    std::vector<double> times;
    times.reserve(answer.index.times().size());
    for (const auto time : answer.index.times()) {
        times.push_back(time.count());
    }
    packing.add(times).add(answer.groupStarts);
    return packing;
}

std::optional<OpeningAnswer> openingAnswer(std::span<const std::byte> bytes)
{
    Unpacking from(bytes);
    OpeningAnswer answer;
    answer.shape = takeShape(from);
    answer.facts = takeFacts(from, answer.shape);
    const auto times = from.takeNumbers<double>(mostFrames);
    answer.groupStarts = from.takeNumbers<std::int64_t>(mostFrames);
    if (!from.isWhole() || !isBelievable(answer.shape) || !isBelievable(answer.facts) ||
        !areBelievableTimes(times) || !areBelievableStarts(answer.groupStarts, times.size())) {
        return std::nullopt;
    }
    answer.facts.width = answer.shape.width();
    answer.facts.height = answer.shape.height();
    answer.facts.frames = static_cast<std::int64_t>(times.size());
    std::vector<Seconds> real;
    real.reserve(times.size());
    for (const double time : times) {
        real.emplace_back(time);
    }
    answer.index = FrameIndex(std::move(real));
    return answer;
}

Packing packed(const Error& error)
{
    Packing packing;
    packing.add(error.kind);
    addLine(packing, error.sentence);
    addLine(packing, error.detail);
    return packing;
}

std::optional<Error> errorIn(std::span<const std::byte> bytes)
{
    Unpacking from(bytes);
    Error error;
    error.kind = from.take<Error::Kind>();
    error.sentence = takeLine(from);
    error.detail = takeLine(from);
    const bool hasKind =
        error.kind >= Error::Kind::NotFound && error.kind <= Error::Kind::Cancelled;
    const bool says = from.isWhole() && hasKind && !error.sentence.empty();
    return says ? std::optional(std::move(error)) : std::nullopt;
}

} // namespace latemile
