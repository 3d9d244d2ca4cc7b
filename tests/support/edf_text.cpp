#include <support/edf_text.hpp>

#include <functional>

namespace jointrom::test {
namespace {

std::string padded(std::string text, std::size_t width) {
    text.resize(width, ' ');
    return text;
}

/// Two bytes a sample, one annotation byte each.
TestSignal annotation_signal(std::string bytes) {
    bytes.resize((bytes.size() + 2) / 2 * 2, '\0');
    TestSignal signal{"EDF Annotations", "", -1, 1, {}};
    for (std::size_t i = 0; i < bytes.size(); i += 2) {
        signal.digital.push_back(static_cast<unsigned char>(bytes[i]) + 256 * static_cast<unsigned char>(bytes[i + 1]));
    }
    return signal;
}

}  // namespace

std::string edf_text(std::vector<TestSignal> signals, const std::string& annotations) {
    const bool is_plus = !annotations.empty();
    if (is_plus) {
        signals.push_back(annotation_signal(annotations));
    }
    const std::size_t count = signals.size();
    std::string text = padded("0", 8) + padded("X X X X", 80) + padded("Startdate X X X X", 80) + "01.01.85" +
                       "00.00.00" + padded(std::to_string(256 * (count + 1)), 8) + padded(is_plus ? "EDF+C" : "", 44) +
                       padded("1", 8) + padded("1", 8) + padded(std::to_string(count), 4);
    const auto field = [&](std::size_t width, const std::function<std::string(const TestSignal&)>& value) {
        for (const TestSignal& signal : signals) {
            text += padded(value(signal), width);
        }
    };
    const auto is_annotations = [&](const TestSignal& s) { return is_plus && &s == &signals.back(); };
    field(16, [](const TestSignal& s) { return s.label; });
    field(80, [&](const TestSignal& s) { return is_annotations(s) ? "" : "sensor"; });
    field(8, [](const TestSignal& s) { return s.unit; });
    field(8, [](const TestSignal& s) { return std::to_string(s.low); });
    field(8, [](const TestSignal& s) { return std::to_string(s.high); });
    field(8, [&](const TestSignal& s) { return is_annotations(s) ? "-32768" : "-1000"; });
    field(8, [&](const TestSignal& s) { return is_annotations(s) ? "32767" : "1000"; });
    field(80, [](const TestSignal&) { return ""; });
    field(8, [](const TestSignal& s) { return std::to_string(s.digital.size()); });
    field(32, [](const TestSignal&) { return ""; });
    for (const TestSignal& signal : signals) {
        for (const int value : signal.digital) {
            const auto bits = static_cast<unsigned>(value) & 0xFFFFU;
            text += static_cast<char>(bits & 0xFFU);
            text += static_cast<char>(bits >> 8U);
        }
    }
    return text;
}

}  // namespace jointrom::test
