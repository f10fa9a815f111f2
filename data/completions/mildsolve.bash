# bash completion of mildsolve. Written by `mildsolve --completion bash` from its tables of commands.

# Names from the tables, of the case and the directories on the command line too.
_mildsolve_names() {
    local i more=()
    for ((i = 1; i + 1 < ${#COMP_WORDS[@]} && i + 1 < COMP_CWORD; i++)); do
        case ${COMP_WORDS[i]} in
        --case | --data) more+=("${COMP_WORDS[i]}" "${COMP_WORDS[i + 1]}") ;;
        esac
    done
    "${COMP_WORDS[0]}" --names "$1" "${more[@]}" 2>/dev/null
}

# _mildsolve_offer HEAD WORD CANDIDATES: those lines of CANDIDATES that begin with WORD, behind HEAD.
_mildsolve_offer() {
    local line
    while IFS= read -r line; do
        if [[ -n $line && $line == "$2"* ]]; then COMPREPLY+=("$1$line"); fi
    done <<<"$3"
}

# The last of several names: what stands before it, up to one of the separators and the spaces after it, is kept.
_mildsolve_last() { # _mildsolve_last WORD SEPARATOR KIND
    local last=${1##*["$2"]} head
    last=${last##*( )}
    head=${1%"$last"}
    _mildsolve_offer "$head" "$last" "$(_mildsolve_names "$3")"
    compopt -o nospace
}

_mildsolve_files() {
    compopt -o filenames
    mapfile -t COMPREPLY < <(compgen "$1" -- "$2")
}

# What may stand after an option, or as an argument: _mildsolve_value KIND WORDS WORD
_mildsolve_value() {
    local word=${3#[\"\']}
    case $1 in
    file) _mildsolve_files -f "$word" ;;
    directory) _mildsolve_files -d "$word" ;;
    words)
        compopt -o filenames # quotes what has spaces
        _mildsolve_offer '' "$word" "${2//|/$'\n'}" ;;
    name) _mildsolve_offer '' "$word" "$(_mildsolve_names "$2")" ;;
    list) _mildsolve_last "$word" , "$2" ;;
    blend) _mildsolve_last "$word" + "$2" ;;
    esac
}

_mildsolve() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} options= value= words=
    local extglob=$(shopt -p extglob)
    shopt -s extglob
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        mapfile -t COMPREPLY < <(compgen -W "$_mildsolve_commands --help --version" -- "$word")
    else
        _mildsolve_command "${COMP_WORDS[1]}" "$before"
        if [[ $value != option: && $value == option:* ]]; then
            _mildsolve_value "${value#option:}" "$words" "$word"
        elif [[ $value != option:* && $word == -* ]]; then
            mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
        elif [[ $value != option:* ]]; then
            _mildsolve_value "$value" "$words" "$word"
        fi
    fi
    eval "$extglob"
}

_mildsolve_commands='gentlest replace place chart drying exposure recipe ladder layers record learn report label solvents materials limits check'

# _mildsolve_command COMMAND WORD-BEFORE: sets options, value and words of _mildsolve.
_mildsolve_command() {
    case $1 in
    gentlest)
        options='--remove --spare --bottles --shelf --without --allow --components --step --margin --by --doubt --probability --prefer --temperature --sensitive --pigment --film-age --flash-least --residue-most --explain --seed --chart --size --paper --dpi --grey --title --object --date --show --threads --every-set --case --tables-only --json --data --language --help'
        value='' words=''
        case $2 in
        --remove | --spare) value=option:list words='materials' ;;
        --bottles | --allow) value=option:list words='bottles' ;;
        --shelf) value=option:name words='shelves' ;;
        --without) value=option:list words='left-out' ;;
        --components | --margin | --probability | --temperature | --pigment | --film-age | --flash-least | --seed | --dpi | --title | --object | --date | --show | --threads) value=option: ;;
        --step) value=option:words words='10|5|2.5|1' ;;
        --by) value=option:words words='film|red' ;;
        --doubt) value=option:words words='none|quick|full' ;;
        --prefer) value=option:words words='paint|residue|health|fire|weak' ;;
        --sensitive) value=option:list words='sensitivities' ;;
        --residue-most) value=option:words words='short|medium|long|any' ;;
        --chart | --case) value=option:file ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    replace)
        options='--without --allow --bottle --bottles --shelf --whole-table --components --step --within --remove --spare --sensitive --limits --room --air-changes --use --hours --temperature --show --threads --case --explain --chart --material --rule --size --paper --dpi --grey --title --object --date --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --without) value=option:list words='left-out' ;;
        --allow | --bottles) value=option:list words='bottles' ;;
        --bottle) value=option:name words='bottles' ;;
        --shelf) value=option:name words='shelves' ;;
        --components | --within | --room | --air-changes | --use | --hours | --temperature | --show | --threads | --dpi | --title | --object | --date) value=option: ;;
        --step) value=option:words words='10|5|2.5|1' ;;
        --remove | --spare | --material) value=option:list words='materials' ;;
        --sensitive) value=option:list words='sensitivities' ;;
        --limits) value=option:name words='limits' ;;
        --case | --chart) value=option:file ;;
        --rule) value=option:words words='fractions|hansen' ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    place)
        options='--temperature --material --case --explain --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --temperature) value=option: ;;
        --material) value=option:list words='materials' ;;
        --case) value=option:file ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    chart)
        options='--blend --bottles --shelf --material --rule --size --paper --dpi --grey --title --object --date --case --explain --json --data --language --help'
        value='file' words=''
        case $2 in
        --blend) value=option:blend words='bottles' ;;
        --bottles) value=option:list words='bottles' ;;
        --shelf) value=option:name words='shelves' ;;
        --material) value=option:list words='materials' ;;
        --rule) value=option:words words='fractions|hansen' ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --dpi | --title | --object | --date) value=option: ;;
        --case) value=option:file ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    drying)
        options='--temperature --case --explain --chart --material --rule --size --paper --dpi --grey --title --object --date --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --temperature | --dpi | --title | --object | --date) value=option: ;;
        --case | --chart) value=option:file ;;
        --material) value=option:list words='materials' ;;
        --rule) value=option:words words='fractions|hansen' ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    exposure)
        options='--use --hours --task --room --air-changes --limits --leave --shift --long-shift --like-effects --rate --wet --capture --capture-measured --near-flow --mixing --share --temperature --case --explain --chart --start --size --paper --dpi --grey --title --object --date --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --use | --hours | --task | --room | --air-changes | --shift | --wet | --capture | --capture-measured | --near-flow | --mixing | --share | --temperature | --start | --dpi | --title | --object | --date) value=option: ;;
        --limits) value=option:name words='limits' ;;
        --rate) value=option:words words='all|model' ;;
        --case | --chart) value=option:file ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    recipe)
        options='--volume --round --leftover --leftover-ml --date --case --explain --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --volume | --round | --leftover-ml | --date) value=option: ;;
        --leftover) value=option:blend words='bottles' ;;
        --case) value=option:file ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    ladder)
        options='--remove --spare --bottles --shelf --without --allow --by --toward --even --show --touch-most --contact --rolls --jar --temperature --threads --date --case --explain --json --data --language --help'
        value='' words=''
        case $2 in
        --remove | --spare) value=option:list words='materials' ;;
        --bottles | --allow) value=option:list words='bottles' ;;
        --shelf) value=option:name words='shelves' ;;
        --without) value=option:list words='left-out' ;;
        --by) value=option:words words='film|red' ;;
        --toward) value=option:name words='bottles' ;;
        --show | --touch-most | --contact | --rolls | --jar | --temperature | --threads | --date) value=option: ;;
        --case) value=option:file ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    layers)
        options='--layer --instead --option --bottles --shelf --without --allow --components --step --probability --doubt --temperature --show --now --threads --case --explain --section --chart --size --paper --dpi --grey --title --object --date --json --data --language --help'
        value='' words=''
        case $2 in
        --layer | --instead | --option | --components | --probability | --temperature | --show | --threads | --dpi | --title | --object | --date) value=option: ;;
        --bottles | --allow) value=option:list words='bottles' ;;
        --shelf) value=option:name words='shelves' ;;
        --without) value=option:list words='left-out' ;;
        --step) value=option:words words='10|5|2.5|1' ;;
        --doubt) value=option:words words='none|quick|full' ;;
        --case | --section | --chart) value=option:file ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    record)
        options='--case --blend --result --passage --site --layer --delivery --load --contact --rolls --colour-on-swab --blanching --clearing --wet --dry --next-day --uv --photo --id --by --date --amend --undo --because --import --export --json --data --language --help'
        value='' words=''
        case $2 in
        --case | --import | --export) value=option:file ;;
        --blend) value=option:blend words='bottles' ;;
        --result) value=option:words words='none|gloss change|softened|partly removed|removed' ;;
        --passage) value=option:name words='passages' ;;
        --site | --load | --contact | --rolls | --clearing | --wet | --dry | --next-day | --uv | --photo | --id | --by | --date | --because) value=option: ;;
        --layer) value=option:name words='layers' ;;
        --delivery) value=option:words words='swab|swab through tissue|gel|microfibre' ;;
        --colour-on-swab) value=option:words words='not looked|none|varnish tint|overpaint|original|unsure' ;;
        --blanching) value=option:words words='not looked|none|wet only|after drying' ;;
        --amend) value=option:name words='tests' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    learn)
        options='--case --explain --chart --size --paper --dpi --grey --title --object --date --fit --polymer --radius-most --temperature --particles --seed --json --data --language --help'
        value='' words=''
        case $2 in
        --case | --chart | --fit) value=option:file ;;
        --size) value=option:words words='half|full' ;;
        --paper) value=option:words words='a4|letter' ;;
        --dpi | --title | --object | --date | --polymer | --radius-most | --temperature | --particles | --seed) value=option: ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    report)
        options='--case --explain --output --sheet --paper --grey --date --volume --show --doubt --learn --json --data --language --help'
        value='' words=''
        case $2 in
        --case | --output) value=option:file ;;
        --paper) value=option:words words='a4|letter' ;;
        --date | --volume | --show) value=option: ;;
        --doubt) value=option:words words='none|quick|full' ;;
        --learn) value=option:words words='none|few|all' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    label)
        options='--bottle --name --date --initials --sheet --rules --flash --viscosity --benzene-unknown --dpi --grey --case --explain --json --data --language --help'
        value='blend' words='bottles'
        case $2 in
        --bottle) value=option:words words='30|100|500' ;;
        --name | --date | --initials | --flash | --viscosity | --dpi) value=option: ;;
        --rules) value=option:words words='eu-clp|us-hcs' ;;
        --case) value=option:file ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    solvents)
        options='--json --data --language --help'
        value='name' words='bottles'
        case $2 in
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    materials)
        options='--json --data --language --help'
        value='name' words='materials'
        case $2 in
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    limits)
        options='--limits --json --data --language --help'
        value='name' words='bottles'
        case $2 in
        --limits) value=option:name words='limits' ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    check)
        options='--date --json --data --language --help'
        value='file' words=''
        case $2 in
        --date) value=option: ;;
        --data) value=option:directory ;;
        --language) value=option:words words='en|de|fr|it|es' ;;
        esac
        ;;
    esac
}

complete -F _mildsolve mildsolve
