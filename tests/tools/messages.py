#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Collects what people read into data/po/mildsolve.pot and brings the catalogues up to it.

    python3 tests/tools/messages.py            write the template, merge it into the catalogues, count what is empty
    python3 tests/tools/messages.py --check    change nothing; fault when the template is old, a catalogue lacks more
                                               than LACKING_MOST of the texts (they then stand in English), or a
                                               translation does not take the same values as its original

Found are: formats and headings of the functions in KEYWORDS; texts in say() and N_(); the members .help, .summary and
.details of commands and options; the lists called ..._words; and the fields of tables in TABLE_TEXTS.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
PO = ROOT / "data" / "po"
TEMPLATE = PO / "mildsolve.pot"
LANGUAGES = ["de", "fr", "it", "es"]
KEYWORDS = ["say:1", "N_:1", "text_say:2", "error_set:3", "error_wrap:3", "page_heading:2", "page_paragraph:4",
            "page_paragraph_f:4", "sheet_column:2", "sheet_cell:2", "arena_say:2", "print_words:3", "faults_add:4", "document_section:3",
            "document_paragraph:3", "document_line:2", "document_table:3", "document_say:2", "table_column:3",
            "table_detail:3", "fact_words:3", "fact_number:3", "tell:2", "say_status:3", "add_statement:4", "add_note:2",
            "carry:3", "decide_by_pair:4", "leave_off:4", "add:6", "complain:5", "wrong:2,2t", "wrong:3",
            "fault:2,2t", "fault:3", "refused:2", "RECORD:2", "CHART_OPTION:1", "add_goal:4", "need:3", "SYMBOL:2", "values_row:3",
            "values_notes:2"]
FORMATS = ["text_say:2", "error_set:3", "error_wrap:3", "page_paragraph_f:4", "sheet_cell:2", "arena_say:2", "print_words:3",
           "document_paragraph:3", "document_say:2", "tell:2", "add_statement:4", "add_note:2", "add:6"]
LACKING_MOST = 0.03
TABLE_TEXTS = {  # file of data/: fields of its rows that people read
    "ageing.yaml": ["words", "state"],
    "components.yaml": ["grade", "set_apart"],
    "hazards.yaml": ["health_note", "regulatory"],
    "materials.yaml": ["name", "behaviour", "not_proposed", "no_region", "meaning", "legend"],
    "sensitivities.yaml": ["name", "warning"],
}

STRINGS = r'((?:"(?:[^"\\]|\\.)*"\s*)+)'


def mark(source):
    """The text of a file with N_() round what xgettext cannot find by a function's name."""
    source = re.sub(r" *\\\n *", " ", source)  # a macro is one line
    source = re.sub(r"(\.(?:help|summary|details)\s*=\s*)" + STRINGS, r"\1N_(\2)", source)

    def words(match):
        return match[1] + re.sub(STRINGS, lambda m: f"N_({m[1]}) ", match[2])

    source = re.sub(r"(\bcaution_words\[\] = )" + STRINGS, r"\1N_(\2)", source)
    # A list within a function that is called just `words` is one of codes when none of them has a space.
    source = re.sub(r"(\w+_words\[\w*\]\s*=\s*)(\{[^}]*\})", words, source, flags=re.S)
    source = re.sub(r"(\bwords\[\w*\]\s*=\s*)(\{[^}]*\w \w[^}]*\})", words, source, flags=re.S)
    # What charts say of themselves.
    source = re.sub(r"(struct \w+_words words = )(\{.*?\n    \};)", words, source, flags=re.S)
    return re.sub(r"(_WORDS_ENGLISH )(\{[^\n]*\})", words, source)


def texts_below(node, fields):
    for key, value in node.items() if isinstance(node, dict) else enumerate(node):
        if key in fields and isinstance(value, str):
            yield value
        elif isinstance(value, (dict, list)):
            yield from texts_below(value, fields)


def table_texts():
    for name, fields in TABLE_TEXTS.items():
        for text in texts_below(yaml.safe_load((ROOT / "data" / name).read_text()), fields):
            yield name, text


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def collect(folder):
    names = []
    for path in sorted((ROOT / "src").rglob("*.[ch]")):
        name = path.relative_to(ROOT)
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(mark(path.read_text()))
        names.append(str(name))
    tables = folder / "data.c"
    tables.write_text("\n".join(f"// {name}\nN_({quoted(text)});" for name, text in table_texts()) + "\n")
    names.append("data.c")
    command = ["xgettext", "--from-code=UTF-8", "--language=C", "--keyword", "--no-location", "--no-wrap", "-o", "-"]
    command += [f"--keyword={word}" for word in KEYWORDS]
    command += [f"--flag={word}:c-format" for word in FORMATS]
    done = subprocess.run(command + names, cwd=folder, capture_output=True, text=True, check=True)
    return done.stdout


HEADER = '''# Texts of mildsolve for people.
# SPDX-License-Identifier: GPL-3.0-or-later
msgid ""
msgstr ""
"Project-Id-Version: mildsolve\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
'''


CODE = re.compile(r"[a-z0-9]*[0-9_/][a-z0-9_/-]*|[a-z]+(?:[-_/][a-z]*[0-9_][a-z0-9]*)+|us-hcs|eu-clp|--[a-z-]+|json|html|pdf|txt")


def text_of(entry):
    return "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', entry.split("msgstr")[0]))


def has_letters(entry):
    text = text_of(entry)
    if CODE.fullmatch(text):
        return False
    text = re.sub(r"%[-+ #0]*[0-9.*]*(?:hh|h|ll|l|z|j|t)?[a-zA-Z%]", "", text)
    text = re.sub(r"\\.", "", text)
    return re.search(r"[A-Za-z]{2}", text) is not None


def as_it_is_used(entry):
    """Takes the mark of a format from a text in which '10 % of' is only a percentage."""
    if "%" in re.sub(r"% [a-z]", "", text_of(entry)):
        return entry
    return "\n".join(line for line in entry.split("\n") if not re.fullmatch(r"#, (?:c-format|no-wrap)", line))


def template():
    with tempfile.TemporaryDirectory() as folder:
        raw = collect(pathlib.Path(folder))
    entries = [entry.strip() for entry in re.split(r"\n\s*\n", raw) if "msgid" in entry]
    return HEADER + "\n" + "\n\n".join(as_it_is_used(entry) for entry in entries if has_letters(entry)) + "\n"


def new_catalogue(language):
    return HEADER.replace("Texts of", f"Texts of ({language})").replace(
        '"MIME-Version', f'"Language: {language}\\n"\n"MIME-Version')


def merge():
    TEMPLATE.write_text(template())
    for language in LANGUAGES:
        path = PO / f"{language}.po"
        if not path.exists():
            path.write_text(new_catalogue(language))
        subprocess.run(["msgmerge", "--quiet", "--no-fuzzy-matching", "--no-location", "--no-wrap", "--sort-output",
                        "--backup=none", "--update", str(path), str(TEMPLATE)], check=True)
        subprocess.run(["msgattrib", "--no-obsolete", "--no-wrap", "--sort-output", "-o", str(path), str(path)],
                       check=True)


def check_catalogue(language):
    path = PO / f"{language}.po"
    done = subprocess.run(["msgfmt", "--check", "--statistics", "-o", "/dev/null", str(path)], capture_output=True,
                          text=True)
    words = done.stderr.strip()
    print(f"{language}: {words.splitlines()[-1] if words else ''}")
    if done.returncode:
        print(words)
    counts = {word: int(number) for number, word in re.findall(r"(\d+) (translated|fuzzy|untranslated)", words)}
    whole = len(re.findall(r"^msgid", TEMPLATE.read_text(), re.M)) - 1
    return done.returncode == 0 and not counts.get("fuzzy") and counts.get("translated", 0) >= (1 - LACKING_MOST) * whole


def main():
    if "--check" not in sys.argv:
        merge()
    current = TEMPLATE.exists() and TEMPLATE.read_text() == template()
    if not current:
        print("data/po/mildsolve.pot is not what the source says: run `python3 tests/tools/messages.py`")
    complete = [check_catalogue(language) for language in LANGUAGES]
    return 0 if current and all(complete) else 1


if __name__ == "__main__":
    sys.exit(main())
