#include "cli/norm_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/analysis/joint_choices.hpp>
#include <jointrom/analysis/settings.hpp>

namespace jointrom::cli {

void NormOptions::attach(OptionList& list, bool with_joint) {
    list.group("Reference values");
    list.value("--norms", file, "FILE", "a table of your own instead of the built-in one");
    if (with_joint) {
        list.value("--joint", joint, "NAME", "name of a joint").suggest(joint_choices());
        list.value("--motion", motion, "NAME", "a direction such as flexion, or a motion such as flexion-extension")
            .suggest(motion_choices())
            .suggest_of_joint(choices_by_joint("motion"));
    }
    list.value("--sex", sex, "F|M", "sex of the person").suggest({"F", "M"});
    list.value("--age,--age-years", age_years, "YEARS", "age in years");
    list.value("--mode", mode, "MODE", "who moves the joint: active (the person) or passive (the examiner)")
        .suggest({"active", "passive"});
    list.value("--source", source, "KEY", "key of one source, as `norms sources` lists them");
}

const NormTable& NormOptions::table() const {
    if (file.empty()) {
        return built_in_norms();
    }
    if (!read_) {
        read_ = read_norm_table(file);
    }
    return *read_;
}

NormFilter NormOptions::filter() const {
    NormFilter filter{.joint = joint, .motion = motion, .source = source};
    if (!sex.empty()) {
        filter.sex = sex_named(sex);
    }
    if (!age_years.empty()) {
        filter.age_years = number_setting("--age", age_years);
    }
    if (!mode.empty()) {
        filter.mode = mode_named(mode);
    }
    return filter;
}

}  // namespace jointrom::cli
