#include "cli/option_list.hpp"

#include <CLI/CLI.hpp>

#include <set>

namespace jointrom::cli {

const OptionList::Added& OptionList::Added::required() const {
    option_.required();
    return *this;
}

const OptionList::Added& OptionList::Added::one_of(std::initializer_list<std::string_view> choices) const {
    option_.check(CLI::IsMember(std::set<std::string>(choices.begin(), choices.end())).description(""));
    return *this;
}

OptionList& OptionList::group(std::string_view heading) {
    heading_ = heading;
    return *this;
}

OptionList::Added OptionList::in_group(CLI::Option* option, std::string_view type) const {
    option->type_name(std::string(type));
    if (!option->get_positional() && !heading_.empty()) {
        option->group(heading_);
    }
    return Added(*option);
}

OptionList::Added OptionList::argument(std::string_view name, std::string& target, std::string_view type,
                                       std::string_view help) {
    return in_group(command_.add_option(std::string(name), target, std::string(help)), type);
}

OptionList::Added OptionList::arguments(std::string_view name, std::vector<std::string>& targets, std::string_view type,
                                        std::string_view help) {
    return in_group(command_.add_option(std::string(name), targets, std::string(help)), type);
}

OptionList::Added OptionList::value(std::string_view names, std::string& target, std::string_view type,
                                    std::string_view help) {
    CLI::Option* const option = command_.add_option(std::string(names), target, std::string(help));
    option->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    return in_group(option, type);
}

OptionList::Added OptionList::values(std::string_view names, std::vector<std::string>& targets, std::string_view type,
                                     std::string_view help) {
    // Without this, a list takes the arguments that follow it.
    CLI::Option* const option =
        command_.add_option(std::string(names), targets, std::string(help))->allow_extra_args(false);
    return in_group(option, type);
}

OptionList::Added OptionList::flag(std::string_view names, bool& target, std::string_view help) {
    return in_group(command_.add_flag(std::string(names), target, std::string(help)), "");
}

void OptionList::on_or_off(std::string_view name, std::optional<bool>& target, std::string_view help) {
    const std::string both = "--" + std::string(name) + ",!--no-" + std::string(name);
    CLI::Option* const option = command_.add_flag_function(
        both, [&target](std::int64_t times) { target = times > 0; }, std::string(help));
    in_group(option, "");
}

}  // namespace jointrom::cli
