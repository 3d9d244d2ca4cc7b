#include "cli/option_list.hpp"

#include <jointrom/core/near_miss.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

namespace jointrom::cli {
namespace {

/// Whether a value of this type is the name of a file or folder, or may be.
bool is_file_type(std::string_view type) {
    return type.find("FILE") != std::string_view::npos || type.find("FOLDER") != std::string_view::npos;
}

}  // namespace

const OptionList::Added& OptionList::Added::required() const {
    option_.required();
    text_.is_required = true;
    return *this;
}

const OptionList::Added& OptionList::Added::one_of(std::initializer_list<std::string_view> choices) const {
    suggest({choices.begin(), choices.end()});
    const auto refuse_others = [known = text_.choices](const std::string& typed) {
        if (std::ranges::find(known, typed) != known.end()) {
            return std::string();
        }
        const std::vector<std::string_view> names(known.begin(), known.end());
        const auto near = nearest(typed, names);
        return fmt::format("'{}' is not one of {}{}", typed, fmt::join(known, ", "),
                           near ? fmt::format("; did you mean {}?", *near) : std::string());
    };
    option_.check(CLI::Validator(refuse_others, ""));
    return *this;
}

const OptionList::Added& OptionList::Added::suggest(std::vector<std::string> choices) const {
    text_.choices = std::move(choices);
    return *this;
}

const OptionList::Added&
OptionList::Added::suggest_of_joint(std::map<std::string, std::vector<std::string>> choices) const {
    text_.of_joint = std::move(choices);
    return *this;
}

const OptionList::Added& OptionList::Added::otherwise(std::string value) const {
    text_.otherwise = std::move(value);
    return *this;
}

const OptionList::Added& OptionList::Added::repeats(bool may_repeat) const {
    text_.may_repeat = may_repeat;
    return *this;
}

OptionList& OptionList::group(std::string_view heading) {
    heading_ = heading;
    return *this;
}

OptionList::Added OptionList::record(CLI::Option* option, std::string_view type, std::string_view help) {
    option->type_name(std::string(type));
    ArgumentText& text = texts_.emplace_back();
    text.is_option = !option->get_positional();
    for (const std::string& name : option->get_lnames()) {
        text.names.push_back("--" + name);
    }
    if (!text.is_option) {
        text.names.emplace_back(type);
    }
    text.type = type;
    text.help = help;
    text.group = text.is_option ? heading_ : "";
    text.takes_file = is_file_type(type);
    return {*option, text};
}

OptionList::Added OptionList::argument(std::string_view name, std::string& target, std::string_view type,
                                       std::string_view help) {
    return record(command_.add_option(std::string(name), target, std::string(help)), type, help);
}

OptionList::Added OptionList::arguments(std::string_view name, std::vector<std::string>& targets, std::string_view type,
                                        std::string_view help) {
    return record(command_.add_option(std::string(name), targets, std::string(help)), type, help).repeats(true);
}

OptionList::Added OptionList::value(std::string_view names, std::string& target, std::string_view type,
                                    std::string_view help) {
    CLI::Option* const option = command_.add_option(std::string(names), target, std::string(help));
    option->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    return record(option, type, help);
}

OptionList::Added OptionList::values(std::string_view names, std::vector<std::string>& targets, std::string_view type,
                                     std::string_view help) {
    // Without this, a list takes the arguments that follow it.
    CLI::Option* const option =
        command_.add_option(std::string(names), targets, std::string(help))->allow_extra_args(false);
    return record(option, type, help).repeats(true);
}

OptionList::Added OptionList::flag(std::string_view names, bool& target, std::string_view help) {
    return record(command_.add_flag(std::string(names), target, std::string(help)), "", help);
}

void OptionList::on_or_off(std::string_view name, std::optional<bool>& target, std::string_view help) {
    const std::string both = "--" + std::string(name) + ",!--no-" + std::string(name);
    CLI::Option* const option = command_.add_flag_function(
        both, [&target](std::int64_t times) { target = times > 0; }, std::string(help));
    record(option, "", help);
}

}  // namespace jointrom::cli
