# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash
# Bash completion of lanewick: verbs, options, figures and their keys, all asked of the program itself.

_lanewick() {
    local program=${COMP_WORDS[0]} word=${COMP_WORDS[COMP_CWORD]} verb=${COMP_WORDS[1]:-}
    local figure=${COMP_WORDS[2]:-} offers=
    if [ "$COMP_CWORD" -eq 1 ]; then
        offers="$("$program" --help 2>/dev/null | sed -n 's/^  \([a-z][a-z_]*\)  .*/\1/p') --help --version"
    elif [ "${word#-}" != "$word" ]; then
        offers="--help $("$program" "$verb" --help 2>/dev/null | grep -o -e '--[a-z][a-z-]*' | sort -u)"
    elif [ "$verb" = figure ] && [ "$COMP_CWORD" -eq 2 ]; then
        offers=$("$program" figure 2>/dev/null | sed -n 's/^  \([a-z][a-z0-9_]*\)  *.*/\1/p')
    elif [ "$verb" = figure ]; then
        offers=$("$program" figure "$figure" --help 2>/dev/null |
            sed -n '/^inputs$/,/^outputs$/s/^  \([a-z][a-z0-9_]*\) .*/\1=/p')
        compopt -o nospace 2>/dev/null
    elif [ "$COMP_CWORD" -eq 2 ]; then
        offers=$("$program" "$verb" --help 2>/dev/null | sed -n "s/^ *lanewick $verb \([a-z][a-z]*\) .*/\1/p" | sort -u)
    fi
    mapfile -t COMPREPLY < <(compgen -W "$offers" -- "$word")
    if [ ${#COMPREPLY[@]} -eq 0 ]; then
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
    fi
}
complete -F _lanewick lanewick
