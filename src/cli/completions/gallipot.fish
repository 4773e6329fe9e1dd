# fish completion for gallipot: the program itself says what may stand next.
function __gallipot_complete
    set -l words (commandline -opc) (commandline -ct)
    set -l lines ($words[1] __complete $words[2..-1] 2>/dev/null)
    switch "$lines[1]"
        case words
            printf '%s\n' $lines[2..-1]
        case files
            __fish_complete_path (commandline -ct)
        case folders
            __fish_complete_directories (commandline -ct)
        case yaml csv
            string match -re '(\.'$lines[1]'|/)(\t|$)' -- (__fish_complete_path (commandline -ct))
    end
end
complete -c gallipot -f -a '(__gallipot_complete)'
