#pragma once

/// \file
/// The arguments that a command takes. Every value is text; what it means is read where it is used, by the readers of
/// core/ and analysis/, which know nothing of the locale.

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace jointrom::cli {

/// Adds arguments to one command. What they are read into must live as long as the command.
class OptionList {
  public:
    /// An argument that was added.
    class Added {
      public:
        explicit Added(CLI::Option& option) : option_(option) {}
        const Added& required() const;
        const Added& one_of(std::initializer_list<std::string_view> choices) const;

      private:
        CLI::Option& option_;
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

  private:
    Added in_group(CLI::Option* option, std::string_view type) const;

    CLI::App& command_;
    std::string heading_;
};

}  // namespace jointrom::cli
