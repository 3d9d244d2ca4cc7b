#include "cli/shell_files.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>
#include <set>

namespace jointrom::cli {
namespace {

/// In single quotes, for any of the shells.
std::string quoted(std::string_view text) {
    std::string result = "'";
    for (const char c : text) {
        result += c == '\'' ? "'\\''" : std::string(1, c);
    }
    return result + "'";
}

/// Each in quotes, with blanks between them.
template <typename Words>
std::string quoted_list(const Words& words) {
    std::string text;
    for (const std::string& word : words) {
        text += (text.empty() ? "" : " ") + quoted(word);
    }
    return text;
}

/// \param special characters that get a backslash
std::string escaped(std::string_view text, std::string_view special) {
    std::string result;
    for (const char c : text) {
        if (special.find(c) != std::string_view::npos) {
            result += '\\';
        }
        result += c;
    }
    return result;
}

std::vector<std::string> option_names(const CommandText& command) {
    std::vector<std::string> names{"--help"};
    for (const ArgumentText& argument : command.arguments) {
        if (argument.is_option) {
            names.insert(names.end(), argument.names.begin(), argument.names.end());
        }
    }
    return names;
}

using OfJoint = std::map<std::string, std::map<std::string, std::vector<std::string>>>;

/// What --joint leaves of the choices of other options, by the option's name without dashes.
OfJoint choices_of_joint(std::span<const CommandText> commands) {
    OfJoint all;
    for (const CommandText& command : commands) {
        for (const ArgumentText& argument : command.arguments) {
            if (!argument.of_joint.empty()) {
                all.emplace(argument.names.front().substr(2), argument.of_joint);
            }
        }
    }
    return all;
}

// ---- bash

/// One line a choice, since names of joints hold blanks.
std::string bash_words(const std::vector<std::string>& choices) {
    return quoted(fmt::format("{}", fmt::join(choices, "\n")));
}

std::string bash_argument(const ArgumentText& argument) {
    return !argument.of_joint.empty()  ? fmt::format("words={}; _jointrom_of_joint {}", bash_words(argument.choices),
                                                     argument.names.front().substr(2))
           : !argument.choices.empty() ? "words=" + bash_words(argument.choices)
           : argument.takes_file       ? "files=yes"
                                       : ":";
}

std::string bash_command(const CommandText& command) {
    std::string text = fmt::format("    {})\n        options={}\n        case $before in\n", command.name,
                                   quoted(fmt::format("{}", fmt::join(option_names(command), "\n"))));
    for (const ArgumentText& argument : command.arguments) {
        if (argument.is_option && !argument.type.empty()) {
            text += fmt::format("        {}) {} ;;\n", fmt::join(argument.names, "|"), bash_argument(argument));
        }
    }
    text += "        *)\n            is_value=\n            case $place in\n";
    std::size_t place = 0;
    for (const ArgumentText& argument : command.arguments) {
        if (!argument.is_option) {
            const std::string which = argument.may_repeat ? "*" : std::to_string(place);
            text += fmt::format("            {}) {} ;;\n", which, bash_argument(argument));
            ++place;
        }
    }
    return text + "            esac\n            ;;\n        esac\n        ;;\n";
}

/// A function that narrows `words` to what `joint` leaves of them.
std::string bash_of_joint(std::span<const CommandText> commands) {
    std::string text = "_jointrom_of_joint() {\n    case \"$1 ${joint,,}\" in\n";
    for (const auto& [option, joints] : choices_of_joint(commands)) {
        for (const auto& [joint, words] : joints) {
            text += fmt::format("    {}) words={} ;;\n", quoted(option + " " + joint), bash_words(words));
        }
    }
    return text + "    esac\n}\n";
}

constexpr std::string_view bash_start = R"(_jointrom() {
    local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
    local command= options= words= files= joint= is_value=yes place=0 i
    # bash takes --option=value apart at the equals sign
    if [[ $current == "=" ]]; then
        current=
    elif [[ $before == "=" ]]; then
        before=${COMP_WORDS[COMP_CWORD-2]}
    fi
    for ((i = 1; i < COMP_CWORD; i++)); do
        if [[ -z $command && ${COMP_WORDS[i]} != -* ]]; then
            command=${COMP_WORDS[i]}
        elif [[ -n $command && ${COMP_WORDS[i]} != [-=]* && ${COMP_WORDS[i-1]} != [-=]* ]]; then
            place=$((place + 1))
        fi
        case "${COMP_WORDS[i-1]} ${COMP_WORDS[i]}" in
        '--joint ='|'= '*) ;;
        '--joint '*) joint=${COMP_WORDS[i]} ;;
        *' --joint='*) joint=${COMP_WORDS[i]#--joint=} ;;
        esac
        [[ ${COMP_WORDS[i-1]} != "=" || ${COMP_WORDS[i-2]} != --joint ]] || joint=${COMP_WORDS[i]}
    done
    joint=${joint//[\\\"\']/}
    case $command in
)";

constexpr std::string_view bash_end = R"(    esac
    local IFS=$'\n'
    if [[ $current == -* && -z $is_value ]]; then
        COMPREPLY=($(compgen -W "$options" -- "$current"))
    elif [[ -n $words ]]; then
        COMPREPLY=($(compgen -W "$words" -- "${current#[\"\']}"))
        [[ ${#COMPREPLY[@]} -ne 1 || $current == [\"\']* ]] || COMPREPLY[0]=$(printf '%q' "${COMPREPLY[0]}")
    elif [[ -n $files ]]; then
        compopt -o filenames 2>/dev/null
        COMPREPLY=($(compgen -f -- "$current"))
    fi
}
complete -F _jointrom jointrom
)";

// ---- zsh

std::string zsh_action(const ArgumentText& argument) {
    if (!argument.of_joint.empty()) {
        return fmt::format("{{_jointrom_of_joint {}}}", argument.names.front().substr(2));
    }
    if (argument.choices.empty()) {
        return argument.takes_file ? "_files" : " ";
    }
    std::string words;
    for (const std::string& choice : argument.choices) {
        words += (words.empty() ? "" : " ") + escaped(choice, " :()\\'\"");
    }
    return "(" + words + ")";
}

/// A function that offers what the joint on the command line leaves.
std::string zsh_of_joint(std::span<const CommandText> commands) {
    std::string text = R"(_jointrom_of_joint() {
    local joint i
    local -a found
    for ((i = 1; i < CURRENT; i++)); do
        case $words[i] in
        --joint) joint=$words[i+1] ;;
        --joint=*) joint=${words[i]#--joint=} ;;
        esac
    done
    case "$1 ${(L)${(Q)joint}}" in
)";
    for (const auto& [option, joints] : choices_of_joint(commands)) {
        std::set<std::string> all;
        for (const auto& [joint, words] : joints) {
            text += fmt::format("    {}) found=({}) ;;\n", quoted(option + " " + joint), quoted_list(words));
            all.insert(words.begin(), words.end());
        }
        text += fmt::format("    {}*) found=({}) ;;\n", quoted(option + " "), quoted_list(all));
    }
    return text + "    esac\n    compadd -a found\n}\n";
}

std::string zsh_argument(const ArgumentText& argument) {
    const std::string type = escaped(argument.type, ":[]\\");
    if (!argument.is_option) {
        return fmt::format("{}:{}:{}", argument.may_repeat ? "*" : "", type, zsh_action(argument));
    }
    return fmt::format("[{}]", escaped(argument.help, ":[]\\")) +
           (argument.type.empty() ? "" : fmt::format(":{}:{}", type, zsh_action(argument)));
}

std::string zsh_command(const CommandText& command) {
    std::string text = fmt::format("    {})\n        _arguments \\\n            '--help[print help]'", command.name);
    for (const ArgumentText& argument : command.arguments) {
        if (!argument.is_option) {
            text += " \\\n            " + quoted(zsh_argument(argument));
        }
        for (const std::string& name : argument.names) {
            if (argument.is_option) {
                const std::string with_value = name + (argument.type.empty() ? "" : "=");
                text += " \\\n            " +
                        quoted((argument.may_repeat ? "*" : "") + with_value + zsh_argument(argument));
            }
        }
    }
    return text + "\n        ;;\n";
}

// ---- fish

/// A function that offers what the joint on the command line leaves.
std::string fish_of_joint(std::span<const CommandText> commands) {
    std::string text = R"(function __jointrom_of_joint
    set -l joint
    set -l before
    for word in (commandline -opc)
        switch "$before $word"
            case '--joint *'
                set joint $word
            case '* --joint=*'
                set joint (string replace -- --joint= '' $word)
        end
        set before $word
    end
    switch "$argv[1] "(string lower -- "$joint")
)";
    for (const auto& [option, joints] : choices_of_joint(commands)) {
        std::set<std::string> all;
        const auto add_case = [&](const std::string& pattern, const auto& words) {
            text +=
                fmt::format("        case {}\n            printf '%s\\n' {}\n", quoted(pattern), quoted_list(words));
        };
        for (const auto& [joint, words] : joints) {
            add_case(option + " " + joint, words);
            all.insert(words.begin(), words.end());
        }
        add_case(option + " *", all);
    }
    return text + "    end\nend\n";
}

std::string fish_command(const CommandText& command) {
    std::string text = fmt::format("complete -c jointrom -n __fish_use_subcommand -f -a {} -d {}\n", command.name,
                                   quoted(command.summary));
    const std::string start = fmt::format("complete -c jointrom -n '__fish_seen_subcommand_from {}'", command.name);
    bool takes_files = false;
    for (const ArgumentText& argument : command.arguments) {
        std::string words;
        for (const std::string& choice : argument.choices) {
            words += (words.empty() ? "" : " ") + escaped(choice, " \\'\"()$");
        }
        if (!argument.of_joint.empty()) {
            words = fmt::format("(__jointrom_of_joint {})", argument.names.front().substr(2));
        }
        const std::string values = !words.empty()          ? " -x -a " + quoted(words)
                                   : argument.takes_file   ? " -r -F"
                                   : argument.type.empty() ? ""
                                                           : " -x";
        if (!argument.is_option) {
            takes_files = takes_files || argument.takes_file;
            text += words.empty() ? "" : start + " -f -a " + quoted(words) + "\n";
            continue;
        }
        for (const std::string& name : argument.names) {
            text += fmt::format("{} -l {}{} -d {}\n", start, name.substr(2), values, quoted(argument.help));
        }
    }
    return text + (takes_files ? start + " -F\n" : start + " -f\n");
}

}  // namespace

std::string bash_completion(std::span<const CommandText> commands) {
    std::string text = "# Completion of jointrom for bash; made from the program's own list of options.\n" +
                       bash_of_joint(commands) + std::string(bash_start);
    std::vector<std::string> names{"help", "--help", "--version"};
    for (const CommandText& command : commands) {
        names.insert(names.end() - 2, std::string(command.name));
        text += bash_command(command);
    }
    text += "    '') words=" + bash_words(names) + " ;;\n";
    names.resize(names.size() - 2);
    return text + "    help) words=" + bash_words(names) + " ;;\n" + std::string(bash_end);
}

std::string zsh_completion(std::span<const CommandText> commands) {
    std::string text = "#compdef jointrom\n# Made from the program's own list of options.\n" + zsh_of_joint(commands) +
                       "local -a commands\ncommands=(\n";
    for (const CommandText& command : commands) {
        text += "    " + quoted(fmt::format("{}:{}", command.name, escaped(command.summary, ":\\"))) + "\n";
    }
    text += ")\nlocal context state state_descr line\ntypeset -A opt_args\n"
            "_arguments -C '(- *)--help[print help]' '(- *)--version[print the version]' \\\n"
            "    '1:command:->command' '*::argument:->argument'\n"
            "case $state in\ncommand) _describe command commands ;;\nargument)\n    case $words[1] in\n";
    for (const CommandText& command : commands) {
        text += zsh_command(command);
    }
    return text + "    help) _describe command commands ;;\n    esac\n    ;;\nesac\n";
}

std::string fish_completion(std::span<const CommandText> commands) {
    std::string text = "# Made from the program's own list of options.\n" + fish_of_joint(commands) +
                       "complete -c jointrom -f\n"
                       "complete -c jointrom -l help -s h -d 'print help'\n"
                       "complete -c jointrom -n __fish_use_subcommand -l version -d 'print the version'\n";
    for (const CommandText& command : commands) {
        text += fish_command(command);
    }
    return text;
}

}  // namespace jointrom::cli
