#pragma once

/// \file
/// The arguments that a command takes. Every value is text; what it means is read where it is used, by the readers of
/// core/ and analysis/, which know nothing of the locale.

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace jointrom::cli {

/// An argument as its user is told of it: help, manual pages and completion are made from these.
struct ArgumentText {
    std::vector<std::string> names;  ///< "--age", "--age-years"; of one that stands without an option, its type
    std::string type;                ///< what stands behind it, e.g. "FILE"; empty for a switch
    std::string help;
    std::string group;
    std::string otherwise;             ///< the value that is in force without it; empty when there is none
    std::vector<std::string> choices;  ///< texts that it may be; others may be right as well
    std::map<std::string, std::vector<std::string>> of_joint;  ///< the choices that --joint leaves
    bool is_option = true;
    bool is_required = false;
    bool may_repeat = false;
    bool takes_file = false;
};

/// Adds arguments to one command. What they are read into must live as long as the command.
class OptionList {
  public:
    /// An argument that was added; used at once, before the next is added.
    class Added {
      public:
        Added(CLI::Option& option, ArgumentText& text) : option_(option), text_(text) {}
        const Added& required() const;
        /// Anything else is refused.
        const Added& one_of(std::initializer_list<std::string_view> choices) const;
        /// What it may be, for those who type; whether it fits is seen where it is used.
        const Added& suggest(std::vector<std::string> choices) const;
        /// Those that remain once --joint is given.
        const Added& suggest_of_joint(std::map<std::string, std::vector<std::string>> choices) const;
        /// The value in force without the option, for the help.
        const Added& otherwise(std::string value) const;
        const Added& repeats(bool may_repeat) const;

      private:
        CLI::Option& option_;
        ArgumentText& text_;
    };

    explicit OptionList(CLI::App& command) : command_(command) {}

    /// Heading in the help for the options that are added from here on.
    OptionList& group(std::string_view heading);

    /// A file or name that stands without an option. \param type as the help shows it, e.g. "FILE"
    Added argument(std::string_view name, std::string& target, std::string_view type, std::string_view help);
    /// Any number of them.
    Added arguments(std::string_view name, std::vector<std::string>& targets, std::string_view type,
                    std::string_view help);
    /// An option with a value; given twice, the last one counts. \param names "--joint", or several,
    /// "--age,--age-years"
    Added value(std::string_view names, std::string& target, std::string_view type, std::string_view help);
    /// An option that can be given more than once, with a value each time.
    Added values(std::string_view names, std::vector<std::string>& targets, std::string_view type,
                 std::string_view help);
    Added flag(std::string_view names, bool& target, std::string_view help);
    /// --NAME and --no-NAME; neither leaves `target` unset.
    void on_or_off(std::string_view name, std::optional<bool>& target, std::string_view help);

    [[nodiscard]] const std::vector<ArgumentText>& texts() const noexcept { return texts_; }

  private:
    Added record(CLI::Option* option, std::string_view type, std::string_view help);

    CLI::App& command_;
    std::string heading_;
    std::vector<ArgumentText> texts_;
};

}  // namespace jointrom::cli
