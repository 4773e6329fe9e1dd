#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/completion.hpp"
#include "cli/help.hpp"
#include "cli/pages.hpp"

namespace gallipot::command {
namespace {

constexpr const char* head =
    R"sh(# bash completion for gallipot, made from the program's own options.

# What stands after an option or in a place: sets kind and values, and comma where several may
# stand. Fails for what takes no value.
_gallipot_value() {
  kind= values= comma=
  case $1 in
)sh";

constexpr const char* tail = R"sh(    *) return 1 ;;
  esac
}

_gallipot_offer() {
  local stem= rest=$cur word
  if [[ $comma && $cur == *,* ]]; then stem=${cur%,*}, rest=${cur##*,}; fi
  while IFS= read -r word; do
    [[ -n $word && $word == "$rest"* ]] && COMPREPLY+=("$stem$(printf %q "$word")")
  done <<<"$1"
}

_gallipot() {
  local cur=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local command= job= position=0 kind= values= comma= i word
  COMPREPLY=()
  # --stock=a4 comes as three words.
  if [[ $cur == = ]]; then cur=; elif [[ $before == = ]]; then before=${COMP_WORDS[COMP_CWORD - 2]}; fi
  for ((i = 1; i < COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if [[ -z $command ]]; then
      [[ $word == -* ]] || command=$word
    elif [[ $word == -* ]]; then
      if _gallipot_value "$command $word"; then
        [[ ${COMP_WORDS[i + 1]} == = ]] && ((++i))
        ((++i))
      fi
    else
      ((position += 1))
      [[ $position -eq 1 ]] && job=${word/#\~/$HOME}
    fi
  done
  kind= values= comma=
  if [[ -z $command ]]; then
    kind=words values=$(printf '%s\n' $(_gallipot_options ''))
  elif [[ $before == -* ]] && _gallipot_value "$command $before"; then
    :
  elif [[ $cur == -* ]]; then
    kind=words values=$(printf '%s\n' $(_gallipot_options "$command"))
  else
    _gallipot_value "$command $((position + 1))" || return 0
  fi
  case $kind in
    words) _gallipot_offer "$values" ;;
    stocks | languages)
      _gallipot_offer "$("$1" "$kind" 2>/dev/null | awk 'NR > 1 { print $1 }')" ;;
    stations)
      _gallipot_offer "$(sed -nE 's/^.*[-{ ]id: *"?([A-Za-z0-9-]+).*$/\1/p' "$job" 2>/dev/null)" ;;
    files)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -f -- "$cur") ;;
    folders)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$cur") ;;
    yaml | csv)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$cur"; compgen -f -X "!*.$kind" -- "$cur") ;;
  esac
}
complete -F _gallipot gallipot
)sh";

const char* kind(Offer offer) {
    switch (offer) {
        case Offer::words:
            return "words";
        case Offer::jobs:
            return "yaml";
        case Offer::csv_files:
            return "csv";
        case Offer::files:
            return "files";
        case Offer::folders:
            return "folders";
        case Offer::stations:
            return "stations";
        case Offer::stocks:
            return "stocks";
        case Offer::languages:
            return "languages";
        case Offer::nothing:
            break;
    }
    return "nothing";
}

/// A line of the case: for "render -o" and "render --output", or for the first argument "render 1".
std::string value_line(const CLI::App& command, const CLI::Option& option, int position) {
    const Value* value = value_of(command, option);
    if (value == nullptr) return {};
    std::vector<std::string> patterns;
    for (const std::string& spelling : spellings(option))
        patterns.push_back(fmt::format("'{} {}'", command.get_name(), spelling));
    if (patterns.empty()) patterns.push_back(fmt::format("'{} {}'", command.get_name(), position));
    return fmt::format("    {}) kind={}{}{} ;;\n", fmt::join(patterns, " | "), kind(value->offer),
                       value->words.empty()
                           ? std::string()
                           : fmt::format(" values=$'{}'", fmt::join(value->words, "\\n")),
                       takes_list(option) ? " comma=yes" : "");
}

std::string options_line(const CLI::App& command, const std::string& name,
                         std::vector<std::string> words) {
    for (const CLI::Option* option : command.get_options())
        for (const std::string& spelling : spellings(*option)) words.push_back(spelling);
    return fmt::format("    {}) echo '{}' ;;\n", name, fmt::join(words, " "));
}

}  // namespace

std::string bash_completion(const CLI::App& app) {
    std::string out = head;
    std::string options = "_gallipot_options() {\n  case $1 in\n";
    std::vector<std::string> names;
    for (const CLI::App* command : commands(app)) {
        names.push_back(command->get_name());
        int position = 0;
        for (const CLI::Option* option : command->get_options()) {
            if (option->get_positional()) ++position;
            out += value_line(*command, *option, position);
        }
        options += options_line(*command, command->get_name(), {});
    }
    options += options_line(app, "''", names) + "  esac\n}\n";
    std::string rest = tail;
    const auto at = rest.find("\n_gallipot() {");
    rest.insert(at + 1, options + '\n');
    return out + rest;
}

}  // namespace gallipot::command
