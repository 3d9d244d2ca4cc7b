#include "analysis/setting_text.hpp"
#include "batch/class_dialect.hpp"

#include <jointrom/batch/plan.hpp>
#include <jointrom/core/checksum.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/recording/bids_motion.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <set>
#include <unordered_map>

namespace jointrom {
namespace {

void apply(const std::vector<EntrySetting>& overrides, Settings& settings) {
    const bool moves_zero =
        std::ranges::any_of(overrides, [](const EntrySetting& s) { return s.kind->name.starts_with("neutral-"); });
    if (moves_zero) {
        settings.preparation.neutral = {};
        settings.neutral_file.clear();
    }
    for (const EntrySetting& setting : overrides) {
        setting.kind->set(settings, setting.text);
    }
}

/// Reads the files that settings name; what is wrong with them is told by every recording that needs them.
std::shared_ptr<const SharedReferences> references_of(const Settings& settings, const std::optional<Dialect>& dialect) {
    auto made = std::make_shared<SharedReferences>();
    try {
        std::istream none(nullptr);
        made->files = read_references(settings, none);
        if (!settings.calibration_file.empty()) {
            made->calibration_sha256 = sha256_of_file(settings.calibration_file);
        }
        if (!settings.neutral_file.empty()) {
            made->neutral_sha256 = sha256_of_file(settings.neutral_file);
        }
    } catch (const Failure& failure) {
        made->failure = failure;
    }
    made->settings_sha256 = sha256_of(settings_fingerprint(settings, *made, dialect));
    return made;
}

class Planning {
  public:
    Planning(ClassList list, const Settings& settings, const Pseudonyms* pseudonyms)
        : list_(std::move(list)), pseudonyms_(pseudonyms), problems_(std::move(list_.problems)) {
        plan_.settings = settings;
        plan_.folder = list_.folder;
        plan_.findings = std::move(list_.findings);
        plan_.class_size = list_.entries.size();
    }

    BatchPlan plan(Shard shard) {
        for (ClassEntry& entry : list_.entries) {
            check(entry);
            entry.subject.id = id_of(entry);
        }
        refuse_twice();
        refuse_problems(problems_);
        std::ranges::sort(list_.entries, {}, [](const ClassEntry& e) -> const std::string& { return e.subject.file; });
        hide_names();
        plan_.dialect = class_dialect(list_.entries, plan_.settings.reading);
        plan_.tasks.reserve(shard.count == 1 ? list_.entries.size() : 0);
        for (ClassEntry& entry : list_.entries) {
            if (entry.is_wanted && shard.holds(entry.subject.id)) {
                add_task(entry);
            }
        }
        std::ranges::sort(plan_.tasks, [](const TrialTask& a, const TrialTask& b) {
            return std::tie(a.subject.file, a.subject.id) < std::tie(b.subject.file, b.subject.id);
        });
        return std::move(plan_);
    }

  private:
    /// What recordings with the same settings share.
    struct Treatment {
        std::shared_ptr<const SharedReferences> references;
        std::string calibration_file, neutral_file;
    };

    [[nodiscard]] Place place_of(const ClassEntry& entry) const {
        return entry.line == 0 ? Place{entry.path.string()} : Place{list_.source, entry.line, 0};
    }
    void check(const ClassEntry& entry);
    [[nodiscard]] std::string id_of(const ClassEntry& entry) const;
    void refuse_twice();
    void add_task(ClassEntry& entry);
    const Treatment& treatment_of(const ClassEntry& entry);
    void hide_names();

    ClassList list_;
    const Pseudonyms* pseudonyms_;
    std::vector<Failure> problems_;
    std::unordered_map<std::string, Treatment> treatments_;  ///< by what the manifest says
    BatchPlan plan_;
};

/// Settings that contradict each other.
void Planning::check(const ClassEntry& entry) {
    const std::string& joint = entry.subject.joint.empty() ? plan_.settings.joint : entry.subject.joint;
    const std::string& motion = entry.subject.motion.empty() ? plan_.settings.motion : entry.subject.motion;
    const auto positions = std::ranges::count_if(
        entry.settings, [](const EntrySetting& s) { return s.kind->name.starts_with("neutral-"); });
    try {
        if (!joint.empty()) {
            (void)joint_motion(joint, motion);
        }
        if (positions > 1) {
            throw Failure(FailureKind::usage, "neutral-twice", "two columns put the neutral zero somewhere",
                          "Fill in one of them.");
        }
    } catch (const Failure& failure) {
        problems_.emplace_back(failure.kind(), failure.code(), failure.what(), failure.advice(), place_of(entry));
    }
}

std::string Planning::id_of(const ClassEntry& entry) const {
    if (pseudonyms_ == nullptr && !entry.subject.id.empty()) {
        return entry.subject.id;
    }
    std::string text = (pseudonyms_ != nullptr ? pseudonyms_->secret() : std::string()) + entry.subject.file + '\n';
    for (const EntrySetting& setting : entry.settings) {
        if (setting.kind->name == "trial" || setting.kind->name == "window-s") {
            text += fmt::format("{}={}\n", setting.kind->name, setting.text);
        }
    }
    return sha256_of(text).substr(0, 16);
}

void Planning::refuse_twice() {
    std::unordered_map<std::string_view, const ClassEntry*> seen;
    for (const ClassEntry& entry : list_.entries) {
        const auto [known, is_new] = seen.emplace(entry.subject.id, &entry);
        if (is_new) {
            continue;
        }
        const ClassEntry& other = *known->second;
        const bool same_file = other.subject.file == entry.subject.file;
        problems_.emplace_back(
            FailureKind::usage, same_file ? "recording-twice" : "id-twice",
            same_file ? fmt::format("{} is listed twice, first in line {}", entry.subject.file, other.line)
                      : fmt::format("the id {} stands for {} and for {}", entry.subject.id, other.subject.file,
                                    entry.subject.file),
            same_file ? "Take one out; for two parts of one file, tell them apart with trial_in_file or window_s." : "",
            place_of(entry));
    }
}

const Planning::Treatment& Planning::treatment_of(const ClassEntry& entry) {
    std::string key;
    for (const EntrySetting& setting : entry.settings) {
        key += setting.kind->name;
        key += '=' + setting.text + '\n';
    }
    const auto [known, is_new] = treatments_.try_emplace(std::move(key));
    Treatment& treatment = known->second;
    if (!is_new) {
        return treatment;
    }
    Settings settings = plan_.settings;
    apply(entry.settings, settings);
    treatment.references = references_of(settings, plan_.dialect);
    treatment.calibration_file = settings.calibration_file;
    treatment.neutral_file = settings.neutral_file;
    return treatment;
}

/// The names of the whole class, and what was found out about it without them.
void Planning::hide_names() {
    if (pseudonyms_ == nullptr) {
        return;
    }
    std::set<std::string> names;
    for (const ClassEntry& entry : list_.entries) {
        for (const std::string& name : {entry.subject.participant, entry.subject.rater}) {
            const auto words = name_and_words(name);
            names.insert(words.begin(), words.end());
        }
    }
    names.erase("");
    plan_.hidden.assign(names.begin(), names.end());
    for (Finding& finding : plan_.findings) {
        finding.text = without_names(finding.text, plan_.hidden);
    }
}

void Planning::add_task(ClassEntry& entry) {
    const Treatment& treatment = treatment_of(entry);
    TrialTask task;
    task.subject = std::move(entry.subject);
    task.path = std::move(entry.path);
    task.name = task.subject.file;
    task.references = treatment.references;
    task.calibration_file = treatment.calibration_file;
    task.settings = std::move(entry.settings);
    task.date = std::move(entry.date);
    task.calibration_date = std::move(entry.calibration_date);
    if (pseudonyms_ != nullptr) {
        TrialSubject& subject = task.subject;
        for (const std::string& name : {subject.participant, subject.rater}) {
            const auto words = name_and_words(name);
            task.hidden.insert(task.hidden.end(), words.begin(), words.end());
        }
        for (const std::filesystem::path& name : {std::filesystem::path(task.name), task.path, task.path.filename()}) {
            task.hidden.push_back(name.string());
            task.hidden.push_back(std::filesystem::path(name).replace_extension().string());
            if (is_bids_motion(name)) {  // what describes it is named as it is, up to the ending
                task.hidden.push_back(name.string().substr(0, name.string().rfind('_')));
            }
        }
        task.hidden.insert(task.hidden.end(), {treatment.calibration_file, treatment.neutral_file});
        subject.participant = pseudonyms_->participant(subject.participant);
        subject.rater = pseudonyms_->rater(subject.rater);
        subject.file = subject.id + task.path.extension().string();
    }
    plan_.tasks.push_back(std::move(task));
}

}  // namespace

bool Shard::holds(std::string_view id) const {
    // 15 digits are 60 bits.
    return count == 1 || std::stoull(sha256_of(id).substr(0, 15), nullptr, 16) % count == number - 1;
}

Shard shard_named(std::string_view text) {
    const std::size_t slash = std::min(text.find('/'), text.size());
    const auto number = parse_number(text.substr(0, slash));
    const auto count = parse_number(text.substr(std::min(slash + 1, text.size())));
    const auto is_whole = [](std::optional<double> value) {
        return value && *value >= 1.0 && *value <= 1e6 && *value == static_cast<double>(static_cast<long>(*value));
    };
    if (!is_whole(number) || !is_whole(count) || *number > *count) {
        refuse_setting("shard", text, "K/N, the K-th of N parts, such as 2/7");
    }
    return {static_cast<std::size_t>(*number), static_cast<std::size_t>(*count)};
}

Settings BatchPlan::settings_of(const TrialTask& task) const {
    Settings result = settings;
    apply(task.settings, result);
    return result;
}

BatchPlan plan_batch(ClassList list, const Settings& settings, Shard shard, const Pseudonyms* pseudonyms) {
    return Planning(std::move(list), settings, pseudonyms).plan(shard);
}

namespace {

/// Maximal contractions with the checksum of a file instead of its name.
std::string maxima_fingerprint(const Settings& settings) {
    std::string text;
    for (const std::string& maximum : settings.maxima) {
        const auto [muscle, source] = named_value(maximum);
        const bool is_file = !parse_number(source) && std::filesystem::is_regular_file(source);
        text += (text.empty() ? "" : ",") + muscle + "=" + (is_file ? sha256_of_file(source) : source);
    }
    return text;
}

}  // namespace

std::string settings_fingerprint(const Settings& settings, const SharedReferences& references,
                                 const std::optional<Dialect>& dialect) {
    std::string text;
    for (const SettingKind& kind : setting_catalogue()) {
        const std::string value = kind.name == "calibration"    ? references.calibration_sha256
                                  : kind.name == "neutral-file" ? references.neutral_sha256
                                  : kind.name == "mvc"          ? maxima_fingerprint(settings)
                                                                : kind.text(settings);
        text += kind.key() + '=' + value + '\n';
    }
    if (dialect) {
        text += fmt::format("class_delimiter={}\nclass_decimal={}\n", dialect->delimiter, dialect->decimal_mark);
    }
    return text;
}

}  // namespace jointrom
