#include <jointrom/report/page_parts.hpp>

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <map>

namespace jointrom {
namespace {

constexpr int angle_decimals = 1;  // what goniometry can tell apart
constexpr std::string_view dash = "–";

std::string number_text(double value, int decimals) {
    return std::isnan(value) ? std::string(dash) : fixed_text(value, decimals);
}

constexpr auto severities = std::to_array<std::string_view>({"error", "warning", "note"});

std::ptrdiff_t rank(const ToldFinding& finding) {
    return std::ranges::find(severities, finding.severity) - severities.begin();
}

const FindingKind* find_kind(std::string_view code) {
    const auto known = std::ranges::find(finding_catalogue(), code, &FindingKind::code);
    return known == finding_catalogue().end() ? nullptr : &*known;
}

std::string sentence_of(const ToldFinding& finding) {
    return with_degree_signs(finding.place.empty() ? finding.text : finding.place + ": " + finding.text);
}

/// Findings of one kind: what each says, and once what it means and what to do.
Markup kind_markup(std::span<const ToldFinding> findings) {
    const ToldFinding& first = findings.front();
    const Markup severity = element("strong", {{"class", "severity"}}, with_capital(first.severity));
    Markup content;
    if (findings.size() == 1) {
        content = paragraph(severity + ": " + sentence_of(first));
    } else {
        std::vector<std::string> sentences;
        for (const ToldFinding& finding : findings) {
            sentences.push_back(sentence_of(finding));
        }
        content = paragraph(severity + ":") + list_of(sentences);
    }
    if (const FindingKind* const kind = find_kind(first.code)) {
        content += element("p", {{"class", "meaning"}}, kind->meaning);
        if (first.severity != "note") {
            content += element("p", {{"class", "advice"}}, "What to do: " + std::string(kind->advice));
        }
    }
    return element("li", {{"class", first.severity}}, content);
}

Markup word_list(std::span<const std::pair<std::string, std::string>> entries, std::string list_class) {
    Markup content;
    for (const auto& [word, meaning] : entries) {
        content += element("dt", word) + element("dd", meaning.empty() ? "none" : meaning);
    }
    return element("dl", {{"class", std::move(list_class)}}, content);
}

std::map<std::string, std::string> default_settings() {
    std::map<std::string, std::string> defaults;
    for (const SettingKind& kind : setting_catalogue()) {
        defaults.emplace(kind.key(), kind.text(Settings{}));
    }
    return defaults;
}

}  // namespace

Markup sections_markup(std::span<const PageSection> sections) {
    Markup contents, content;
    for (const PageSection& section : sections) {
        if (section.content.empty()) {
            continue;
        }
        contents += element("li", element("a", {{"href", "#" + section.id}}, section.heading));
        content += element("section", {{"id", section.id}, {"class", section.has_margin ? "margin" : "whole"}},
                           element("h2", section.heading) + element("div", section.content));
    }
    return element("nav", {{"aria-label", "On this page"}}, element("ul", contents)) + content;
}

Markup paragraph(const Markup& content) {
    return element("p", content);
}

Markup list_of(std::span<const std::string> sentences) {
    Markup items;
    for (const std::string& sentence : sentences) {
        items += element("li", with_degree_signs(sentence));
    }
    return sentences.empty() ? Markup() : element("ul", {{"class", "plain"}}, items);
}

std::string with_capital(std::string text) {
    if (!text.empty()) {
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    }
    return text;
}

std::string with_degree_signs(std::string sentence) {
    constexpr std::string_view unit = " deg";
    for (std::size_t at = sentence.find(unit); at != std::string::npos; at = sentence.find(unit, at + 1)) {
        const std::size_t end = at + unit.size();
        const bool is_word_part = end < sentence.size() && std::isalpha(static_cast<unsigned char>(sentence[end])) != 0;
        const bool follows_number = at > 0 && std::isdigit(static_cast<unsigned char>(sentence[at - 1])) != 0;
        if (follows_number && !is_word_part) {
            sentence.replace(at, unit.size(), "°");
        }
    }
    return sentence;
}

std::string angle_text(double angle_deg) {
    return number_text(angle_deg, angle_decimals) + (std::isnan(angle_deg) ? "" : "°");
}

std::string angle_text(const Measured& angle) {
    return std::isnan(angle.u95) ? angle_text(angle.value)
                                 : fixed_text(angle.value, angle_decimals) + " ± " + angle_text(angle.u95);
}

Markup figure_markup(const std::string& id, const std::function<std::string(const FigureStyle&)>& draw) {
    const auto drawn = [&](const std::string& form, std::size_t width_px) {
        return element(
            "div", {{"class", form}},
            Markup::made(draw({.width_px = width_px, .id_prefix = id + "-" + form, .with_style_sheet = false})));
    };
    return element("figure", drawn("wide", 920) + drawn("narrow", 340));
}

std::vector<ToldFinding> told(const Findings& findings) {
    std::vector<ToldFinding> result;
    for (const Finding& finding : findings) {
        Place place = finding.place;
        place.file = std::filesystem::path(place.file).filename().string();
        result.push_back(
            {std::string(name_of(finding.severity())), std::string(finding.code()), finding.text, place.text()});
    }
    return result;
}

Markup findings_markup(std::vector<ToldFinding> findings) {
    // By severity, and those of one code together, in the order in which the codes come first.
    std::vector<std::string> codes;
    for (const ToldFinding& finding : findings) {
        codes.push_back(finding.code);
    }
    std::ranges::stable_sort(findings, {}, [&](const ToldFinding& finding) {
        return std::pair(rank(finding), std::ranges::find(codes, finding.code) - codes.begin());
    });
    Markup items;
    for (auto first = findings.begin(); first != findings.end();) {
        const auto last = std::find_if(first, findings.end(), [&](const ToldFinding& finding) {
            return finding.code != first->code || finding.severity != first->severity;
        });
        items += kind_markup({first, last});
        first = last;
    }
    return findings.empty() ? Markup() : element("ul", {{"class", "findings"}}, items);
}

std::string findings_count(std::span<const ToldFinding> findings) {
    std::string text;
    for (const std::string_view severity : severities) {
        const auto count = std::ranges::count(findings, severity, &ToldFinding::severity);
        if (count > 0) {
            text += fmt::format("{}{} {}{}", text.empty() ? "" : ", ", count, severity, count == 1 ? "" : "s");
        }
    }
    return text.empty() ? "nothing" : text;
}

Markup provenance(std::span<const InputFile> inputs, std::string_view version,
                  std::span<const std::pair<std::string, std::string>> settings) {
    std::vector<std::pair<std::string, std::string>> facts{{"Program", "jointrom " + std::string(version)}};
    for (const InputFile& input : inputs) {
        const std::string name = std::filesystem::path(input.name).filename().string();
        facts.emplace_back(
            name, fmt::format("{} rows{}{}", input.rows, input.sha256.empty() ? "" : ", SHA-256 ", input.sha256));
    }
    const std::map<std::string, std::string> defaults = default_settings();
    std::vector<std::pair<std::string, std::string>> chosen, left;
    std::string found_out;
    for (const auto& [name, text] : settings) {
        const auto usual = defaults.find(name);
        const bool is_chosen = usual == defaults.end() ? !text.empty() : usual->second != text;
        if (is_chosen || !text.empty()) {
            (is_chosen ? chosen : left).emplace_back(name, text);
        } else {
            found_out += (found_out.empty() ? "" : ", ") + name;
        }
    }
    Markup content = paragraph("The same files, settings and version of the program give the same numbers again. A "
                               "checksum (SHA-256) is a file's fingerprint: another file has another one.");
    content += word_list(facts, "facts");
    content += element("h3", "Settings that were chosen");
    content += chosen.empty() ? paragraph("None.") : word_list(chosen, "facts");
    if (!left.empty()) {
        content += element("h3", "Settings left as they are") + word_list(left, "facts");
    }
    if (!found_out.empty()) {
        content += element("h3", "Found out from the recording, or not needed") + paragraph(found_out + ".");
    }
    return content;
}

}  // namespace jointrom
