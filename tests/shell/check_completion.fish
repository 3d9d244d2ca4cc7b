# check_completion.fish FILE: what fish offers with the completion in FILE once a joint is on the command line.
source $argv[1]
set -g failed 0

function expect
    set -l got (complete -C "$argv[2]" | string replace -r '\t.*' '' | sort | string join ,)
    if test "$got" != "$argv[1]"
        echo "'$argv[2]' offers '$got', wanted '$argv[1]'"
        set -g failed 1
    end
end

expect extension,flexion,flexion-extension 'jointrom range --joint elbow --motion '
expect flexion,flexion-extension 'jointrom range --joint=Elbow --motion fl'
expect extension,flexion,flexion-extension 'jointrom check --joint "great toe mtp" --motion '
expect prone,sitting,standing 'jointrom load --joint knee --posture '
expect abduction,abduction-adduction 'jointrom range --motion abd'
exit $failed
