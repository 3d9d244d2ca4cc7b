#include "analysis/setting_groups.hpp"
#include "analysis/setting_text.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

void set_emg_form(Settings& settings, Text text) {
    auto& form = settings.activity.emg.form;
    form.reset();
    for (const EmgForm known : {EmgForm::raw, EmgForm::rectified, EmgForm::envelope}) {
        if (text == name_of(known)) {
            form = known;
        }
    }
    if (!form && text != "auto") {
        refuse_setting("emg-form", text, "raw, rectified, envelope or auto");
    }
}

std::string emg_form_text(const Settings& settings) {
    const auto& form = settings.activity.emg.form;
    return std::string(form ? name_of(*form) : "auto");
}

void set_emg_band(Settings& settings, Text text) {
    EmgBand& band = settings.activity.emg.band;
    if (text == "auto" || text == "off") {
        band = {.rule = text == "auto" ? EmgBand::Rule::automatic : EmgBand::Rule::off};
        return;
    }
    const std::size_t comma = text.find(',');
    const auto low = parse_number(text.substr(0, comma));
    const auto high = comma == Text::npos ? std::nullopt : parse_number(text.substr(comma + 1));
    if (!low || !high || *low <= 0.0 || *low >= *high) {
        refuse_setting("emg-band-hz", text, "two frequencies in Hz, such as 20,450, auto or off");
    }
    band = {.rule = EmgBand::Rule::fixed, .low = Hertz(*low), .high = Hertz(*high)};
}

std::string emg_band_text(const Settings& settings) {
    const EmgBand& band = settings.activity.emg.band;
    return band.rule == EmgBand::Rule::automatic ? "auto"
           : band.rule == EmgBand::Rule::off     ? "off"
                                                 : quantity_text(band.low) + "," + quantity_text(band.high);
}

void set_mains(Settings& settings, Text text) {
    MainsChoice& mains = settings.activity.emg.mains;
    if (text == "auto" || text == "off") {
        mains = {.rule = text == "auto" ? MainsChoice::Rule::automatic : MainsChoice::Rule::off};
        return;
    }
    const auto value = parse_number(text);
    if (!value || *value <= 0.0) {
        refuse_setting("mains-hz", text, "50, 60, auto or off");
    }
    mains = {.rule = MainsChoice::Rule::fixed, .frequency = Hertz(*value)};
}

std::string mains_text(const Settings& settings) {
    const MainsChoice& mains = settings.activity.emg.mains;
    return mains.rule == MainsChoice::Rule::automatic ? "auto"
           : mains.rule == MainsChoice::Rule::off     ? "off"
                                                      : quantity_text(mains.frequency);
}

void set_normalise(Settings& settings, Text text) {
    if (text != "peak" && text != "none") {
        refuse_setting("normalise", text, "peak or none; --mvc gives percent of the MVC");
    }
    settings.activity.normalisation = text == "peak" ? Normalisation::peak : Normalisation::none;
}

std::string maxima_text(const Settings& settings) {
    std::string text;
    for (const std::string& maximum : settings.maxima) {
        text += (text.empty() ? "" : ",") + maximum;
    }
    return text;
}

void set_onset(Settings& settings, Text text) {
    if (text != "envelope" && text != "teager-kaiser") {
        refuse_setting("onset", text, "envelope or teager-kaiser");
    }
    settings.activity.onset = text == "envelope" ? OnsetSignal::envelope : OnsetSignal::teager_kaiser;
}

void add_pair(Settings& settings, Text text) {
    const std::size_t comma = text.find(',');
    if (comma == Text::npos || comma == 0 || comma + 1 == text.size()) {
        refuse_setting("pair", text, "two muscles, such as biceps,triceps");
    }
    settings.activity.pairs.emplace_back(text.substr(0, comma), text.substr(comma + 1));
}

std::string pairs_text(const Settings& settings) {
    std::string text;
    for (const auto& [mover, antagonist] : settings.activity.pairs) {
        text += (text.empty() ? "" : ";") + mover + "," + antagonist;
    }
    return text;
}

constexpr auto activity = SettingGroup::activity;

constexpr auto catalogue = std::to_array<SettingKind>({
    {"emg-form", activity, "FORM", "what the EMG columns hold: raw, rectified, envelope or auto", false, set_emg_form,
     emg_form_text},
    {"emg-band-hz", activity, "LOW,HIGH", "frequencies that are kept; auto: 20,450 or what the rate allows; or off",
     false, set_emg_band, emg_band_text},
    {"mains-hz", activity, "N|auto|off", "hum to look for and filter out: 50, 60, auto or off", false, set_mains,
     mains_text},
    {"envelope-hz", activity, "N", "cut-off of the linear envelope", false,
     [](Settings& s, Text t) { s.activity.emg.envelope_cutoff = Hertz(positive_setting("envelope-hz", t)); },
     [](const Settings& s) { return quantity_text(s.activity.emg.envelope_cutoff); }},
    {"rms-s", activity, "SECONDS", "the envelope is the moving RMS over this time instead", false,
     [](Settings& s, Text t) { s.activity.emg.rms_window = Seconds(positive_setting("rms-s", t)); },
     [](const Settings& s) { return quantity_text(s.activity.emg.rms_window); }},
    {"mvc", activity, "[NAME=]FILE|VALUE", "maximal contraction: a recording, or its mean rectified activity", true,
     [](Settings& s, Text t) { s.maxima.emplace_back(t); }, maxima_text},
    {"normalise", activity, "HOW", "peak: percent of each muscle's highest envelope; or none", false, set_normalise,
     [](const Settings& s) { return std::string(s.activity.normalisation == Normalisation::peak ? "peak" : "none"); }},
    {"onset", activity, "HOW", "look for bursts in the envelope, or in the teager-kaiser energy", false, set_onset,
     [](const Settings& s) {
         return std::string(s.activity.onset == OnsetSignal::envelope ? "envelope" : "teager-kaiser");
     }},
    {"onset-sd", activity, "N", "a muscle is active this many SD above its mean at rest", false,
     [](Settings& s, Text t) { s.activity.threshold_sd = positive_setting("onset-sd", t); },
     [](const Settings& s) { return shortest_text(s.activity.threshold_sd); }},
    {"onset-s", activity, "SECONDS", "for which its mean must stay above to count", false,
     [](Settings& s, Text t) { s.activity.bursts.window = Seconds(positive_setting("onset-s", t)); },
     [](const Settings& s) { return quantity_text(s.activity.bursts.window); }},
    {"baseline-s", activity, "START,END", "seconds between which the muscles rest", false,
     [](Settings& s, Text t) { s.activity.baseline = window_setting("baseline-s", t); },
     [](const Settings& s) { return window_text(s.activity.baseline); }},
    {"pair", activity, "MOVER,ANTAGONIST", "two muscles whose co-contraction is measured", true, add_pair, pairs_text},
    {"resists", activity, "DIRECTION", "the direction of movement that the load resists, such as flexion", false,
     [](Settings& s, Text t) { s.activity.resisted = t; }, [](const Settings& s) { return s.activity.resisted; }},
});

}  // namespace

std::span<const SettingKind> activity_settings() {
    return catalogue;
}

}  // namespace jointrom
