#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Files and words that mean harm: each reader refuses them at once, in little memory and with a sentence that no terminal
obeys; each writer leaves links, pipes and devices alone; markup in any field of a case stays text.

Usage: hostile.py [--long]
"""
import argparse
import html.parser
import os
import pathlib
import re
import resource
import shutil
import subprocess
import tempfile
import time
import xml.etree.ElementTree

import common

SECONDS_MOST = 20  # of processor time, under a sanitizer on a busy machine; 0.1 are usual
MEGABYTES_MOST = 200
SANITIZED = os.environ.get("SANITIZED") == "yes"
MIB = 1024 * 1024
# Anything below the space but the end of a line, DEL, and C1.
CONTROL = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]")

faults = []
checks = 0
long = False


def some(items, every):
    """All of them in the long run, in the quick one every so manieth."""
    return items if long else items[::every]


def check(right, words):
    global checks
    checks += 1
    if not right:
        faults.append(words)


def limit():
    os.setsid()
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS_MOST, SECONDS_MOST))


def run(folder, words, statuses, what):
    """Runs in the folder; checks status, talk and memory. Returns out and err as text."""
    with open(os.path.join(folder, "out"), "wb+") as out, open(os.path.join(folder, "err"), "wb+") as err:
        process = subprocess.Popen([common.PROGRAM, *words], cwd=folder, env=common.environment(), stdout=out, stderr=err,
                                   stdin=subprocess.DEVNULL, preexec_fn=limit)
        begun = time.monotonic()
        while True:
            pid, status, usage = os.wait4(process.pid, os.WNOHANG)
            if pid:
                break
            if time.monotonic() - begun > 10 * SECONDS_MOST:
                process.kill()  # it waits for something
                pid, status, usage = os.wait4(process.pid, 0)
                break
            time.sleep(0.002)
        process.returncode = code = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        answer, talk = out.read(), err.read()
    check(code in statuses, f"{what}: exit status {code}, expected one of {statuses}: {talk[-300:]!r}")
    check(b"Sanitizer" not in talk, f"{what}: {talk[-300:]!r}")
    check(SANITIZED or usage.ru_maxrss < MEGABYTES_MOST * 1024, f"{what}: {usage.ru_maxrss // 1024} MiB")
    words_of = answer.decode("utf-8", "replace") + talk.decode("utf-8", "replace")
    check(not CONTROL.search(words_of.replace("\r\n", "\n")), f"{what}: a control character reaches the terminal")
    return answer.decode(errors="replace"), talk.decode(errors="replace")


# --- what is read ---

def bomb():
    """Nine levels of nine aliases each."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 10)]
    return "\n".join(lines).encode()


def hostile_yaml():
    head = common.CASE.encode()
    yield "alias bomb", bomb()
    yield "alias bomb behind a case", head + bomb()
    yield "an anchor that holds itself", b"a: &a [*a]\n"
    yield "merge key", b"a: &a {b: 1}\nc: {<<: *a}\n"
    yield "10,000 lists in a line", head + b"x: " + b"[" * 10000 + b"]" * 10000
    yield "10,000 maps in a line", head + b"x: " + b"{a: " * 10000 + b"}" * 10000
    yield "10,000 lists, never closed", b"[" * 10000
    yield "10,000 dashes", head + b"x:\n  " + b"- " * 10000 + b"a\n"
    yield "1,000 indented maps", b"".join(b" " * i + b"a:\n" for i in range(1000))
    yield "100,000 question marks", b"? " * 100000
    yield "NUL", head + b"note: a\0b\n"
    yield "NUL only", b"\0" * 1000
    yield "invalid UTF-8", head.replace(b"Boat", b"Bo\xffat")
    yield "an overlong slash", head.replace(b"Boat", b"Bo\xc0\xafat")
    yield "a surrogate", head.replace(b"Boat", b"Bo\xed\xa0\x80at")
    yield "UTF-16", head.decode().encode("utf-16")
    yield "an escape sequence", head.replace(b"Boat", b"\x1b[2J\x1b]0;x\x07")
    yield "an escape sequence by an escape", head.replace(b"Boat Shed", b'"\\e[2J"')
    yield "a C1 control", head.replace(b"Boat", b"\xc2\x9b31m")
    yield "an escape sequence in a key", head + b'"\\e[31m": 1\n'
    yield "an unknown key of 1 MB", head + b"a" * MIB + b": 1\n"
    yield "a tag", head + b"note: !!python/object/apply:os.system [id]\n"
    yield "two documents", head + b"---\n" + head
    yield "a directive of another version", b"%YAML 9.9\n---\n" + head
    yield "400,001 values", head + b"x: [" + b"1," * 400001 + b"]\n"
    yield "the same key 100,000 times", head + b"note: a\n" * 100000
    yield "no number", head.replace(b"width_mm: 300", b"width_mm: .nan")
    yield "no end", head.replace(b"width_mm: 300", b"width_mm: .inf")
    yield "a number without end", head.replace(b"width_mm: 300", b"width_mm: " + b"9" * 100000)
    yield "a huge exponent", head.replace(b"width_mm: 300", b"width_mm: 1e999999999")
    yield "a quotation mark never closed", head + b'note: "' + b"x" * 100000


def readers(name):
    """The commands that read a table, a case; the words for a folder of tables are in tables()."""
    return [(["check", name], [1, 2]), (["report", "--case", name, "--learn", "none"], [2]),
            (["gentlest", "--case", name], [2]), (["place", "acetone", "--case", name], [2]),
            (["record", "--case", name, "--passage", "sky", "--blend", "acetone", "--result", "none", "--date",
              "2025-02-19"], [2])]


def test_yaml(folder):
    own = os.path.join(folder, "own")
    os.mkdir(own)
    for what, data in hostile_yaml():
        path = os.path.join(folder, "bad.yaml")
        pathlib.Path(path).write_bytes(data)
        shutil.copy(path, os.path.join(own, "components.yaml"))
        for words, statuses in readers("bad.yaml")[:2 if long and len(data) < MIB else 1]:
            _, talk = run(folder, words, statuses, f"{what}: {words[0]}")
            check(words[0] == "check" or "bad.yaml:" in talk, f"{what}: {words[0]} does not say where: {talk[-200:]!r}")
        run(folder, readers("bad.yaml")[4][0], [2], f"{what}: record")
        check(pathlib.Path(path).read_bytes() == data, f"{what}: record changed it")
        if long:
            run(folder, ["place", "acetone", "--data", "own"], [2], f"{what}: as a table")
    shutil.rmtree(own)


def hostile_csv():
    head = b"date,passage,blend,result\n"
    row = b"2025-02-19,sky,isooctane,none\n"
    yield "NUL", head + row.replace(b"sky", b"s\0y")
    yield "NUL only", b"\0" * 1000
    yield "invalid UTF-8", head + row.replace(b"sky", b"s\xffy")
    yield "an escape sequence", head + row.replace(b"sky", b"\x1b[2J")
    yield "an escape sequence in the heading", b"date,\x1b[2J\n" + row
    yield "a C1 control", head + row.replace(b"sky", b"\xc2\x9b31m")
    yield "a quotation mark never closed", head + b'"' + b"x" * MIB
    yield "a million commas", head + b"," * MIB
    yield "100,000 columns", b"date," * 100000 + b"\n"
    yield "no row", b"\n" * MIB
    yield "UTF-16", head.decode().encode("utf-16")
    yield "a number of a million digits", b"delta_d,delta_p,delta_h,result\n" + b"9" * MIB + b",1,1,dissolved\n"


def test_csv(folder):
    common.fill(folder)
    for what, data in hostile_csv():
        pathlib.Path(folder, "bad.csv").write_bytes(data)
        run(folder, ["record", "--case", "case.yaml", "--import", "bad.csv"], [2], f"{what}: record --import")
        check(pathlib.Path(folder, "case.yaml").read_text() == common.CASE, f"{what}: the case was changed")
        run(folder, ["learn", "--fit", "bad.csv"], [2], f"{what}: learn --fit")


def every_reader(name):
    return readers(name) + [(["record", "--case", "case.yaml", "--import", name], [2, 3]),
                            (["learn", "--fit", name], [2, 3])]


def test_large(folder):
    """100 MB of one small record after the other: refused after the first 4 MiB, with the limit."""
    common.fill(folder)
    block = b"- a\n" * (MIB // 4)
    with open(os.path.join(folder, "large.yaml"), "wb") as file:
        for _ in range(100):
            file.write(block)
    os.mkdir(os.path.join(folder, "own"))
    os.link(os.path.join(folder, "large.yaml"), os.path.join(folder, "own", "components.yaml"))
    for words, statuses in some(every_reader("large.yaml"), 3) + [(["place", "acetone", "--data", "own"], [2])]:
        out, talk = run(folder, words, statuses, f"100 MB: {words[0]}")
        check(re.search(r"longer than \d+ bytes, the most a data file may have", out + talk),
              f"100 MB: {words[0]} does not name the limit: {(out + talk)[-200:]!r}")
    os.remove(os.path.join(folder, "large.yaml"))
    shutil.rmtree(os.path.join(folder, "own"))


def test_no_files(folder):
    """Directories, pipes and devices are neither read nor waited for."""
    common.fill(folder)
    os.mkfifo(os.path.join(folder, "pipe.yaml"))
    os.mkdir(os.path.join(folder, "folder.yaml"))
    os.symlink("loop.yaml", os.path.join(folder, "loop.yaml"))
    for name in ("pipe.yaml", "folder.yaml", "loop.yaml", "/dev/zero", "/dev/null", "/dev/stdin", ""):
        for words, _ in some(every_reader(name), 3):
            out, talk = run(folder, words, [1, 2, 3], f"{name!r}: {words[0]}")
            check(talk or "fault" in out, f"{name!r}: {words[0]} says nothing")


# --- what is written ---

def outputs(suffixes):
    return [(words, targets[0]) for words, targets in common.WRITERS
            if targets[0].rsplit(".", 1)[1] in suffixes and targets[0].startswith("out")]


def renamed(words, old, new):
    return [new if word == old else word for word in words]


def test_targets(folder):
    """A link stays a link and the file it names is replaced; a pipe, a device, a directory is refused and left alone."""
    common.fill(folder)
    shelf = pathlib.Path(folder, "shelf")
    shelf.mkdir()
    for words, target in some(outputs(("csv", "svg", "txt", "html", "pdf", "json")), 5):
        suffix = target.rsplit(".", 1)[1]
        what = common.title(words)
        real, link = shelf / ("real." + suffix), pathlib.Path(folder, "link." + suffix)
        real.write_bytes(common.OLD)
        link.symlink_to(real.relative_to(folder))
        run(folder, renamed(words, target, link.name), [0, 1], f"{what} to a link")
        check(link.is_symlink() and real.read_bytes() != common.OLD, f"{what}: the link was not followed")
        check(sorted(p.name for p in shelf.iterdir()) == [real.name], f"{what}: something lies beside the file")
        link.unlink()
        real.unlink()
    for words, target in some(outputs(("csv", "svg", "html", "pdf")), 8):
        suffix = target.rsplit(".", 1)[1]
        bad = pathlib.Path(folder, "bad." + suffix)
        for kind, make in (("pipe", lambda: os.mkfifo(bad)), ("directory", bad.mkdir), ("full device", None),
                           ("loop of links", lambda: bad.symlink_to(bad.name))):
            if make:
                make()
            else:
                bad.symlink_to("/dev/full")
            _, talk = run(folder, renamed(words, target, bad.name), [3], f"{common.title(words)} to a {kind}")
            check("cannot write" in talk and bad.name in talk, f"{common.title(words)} to a {kind}: {talk[-200:]!r}")
            check(os.path.lexists(bad), f"{common.title(words)}: the {kind} is gone")
            bad.rmdir() if kind == "directory" else bad.unlink()
    check(not list(pathlib.Path(folder).glob(".mildsolve*")), "something lies beside the targets")


def test_case_link(folder):
    """A case that is a link into another folder stays one, and the lock lies beside the file itself."""
    shelf = pathlib.Path(folder, "shelf")
    shelf.mkdir(exist_ok=True)
    (shelf / "real.yaml").write_text(common.CASE)
    pathlib.Path(folder, "case.yaml").unlink(missing_ok=True)
    pathlib.Path(folder, "case.yaml").symlink_to("shelf/real.yaml")
    run(folder, common.NOTE, [0], "record through a link")
    check(pathlib.Path(folder, "case.yaml").is_symlink(), "record replaced the link by a file")
    check((shelf / "real.yaml").read_text().startswith(common.CASE) and "softened" in (shelf / "real.yaml").read_text(),
          "record did not write the file that the link names")
    check([p.name for p in shelf.iterdir()] == ["real.yaml"], "record left something beside the file")
    # A lock file that is a link is a trap: what it names would be made or opened.
    (shelf / "real.yaml.lock").symlink_to(pathlib.Path(folder, "victim"))
    run(folder, common.NOTE, [3], "a lock that is a link")
    check(not pathlib.Path(folder, "victim").exists(), "the lock was followed")


# --- words that terminals, browsers or Pango would obey ---

ESCAPE = "a\x1b[31mb\x1b]0;title\x07\x9b2J\u009b2J\r\bc"


def test_words(folder):
    """On the command line, in every place that is shown again."""
    common.fill(folder)
    shown = [["place", ESCAPE], [ESCAPE], ["--" + ESCAPE], ["help", ESCAPE], ["--completion", ESCAPE], ["place", "acetone", "--" + ESCAPE],
             ["place", "acetone", "--material", ESCAPE], ["place", "acetone", "--data", ESCAPE],
             ["place", "acetone", "--case", ESCAPE], ["place", "acetone", "--language", ESCAPE],
             ["recipe", "acetone 1 + toluene 1", "--volume", ESCAPE], ["solvents", ESCAPE], ["materials", ESCAPE],
             ["limits", "toluene", "--limits", ESCAPE], ["drying", "acetone", "--chart", ESCAPE],
             ["exposure", "--room", "9", "--air-changes", "1", "--task", ESCAPE], ["check", ESCAPE],
             ["gentlest", "--remove", ESCAPE], ["gentlest", "--remove", "dammar-aged", "--bottles", ESCAPE],
             ["gentlest", "--remove", "dammar-aged", "--without", ESCAPE],
             ["replace", "acetone", "--bottle", ESCAPE], ["ladder", "--remove", "dammar-aged", "--toward", ESCAPE],
             ["layers", "--layer", ESCAPE], ["learn", "--fit", ESCAPE], ["chart", ESCAPE + ".svg", "--blend", ESCAPE],
             ["label", "acetone", ESCAPE], ["report", "--case", "case.yaml", "-o", ESCAPE],
             ["record", "--case", "case.yaml", "--passage", ESCAPE, "--blend", "acetone", "--result", "none"],
             ["record", "--case", "case.yaml", "--passage", "sky", "--blend", "acetone", "--result", ESCAPE],
             ["record", "--case", "case.yaml", "--passage", "sky", "--blend", "acetone", "--result", "none", "--wet", ESCAPE],
             ["record", "--case", "case.yaml", "--import", ESCAPE], ["record", "--case", "case.yaml", "--export", "/no/" + ESCAPE]]
    for words in some(shown, 2):
        run(folder, words, [1, 2, 3], f"escapes: {words[:-1]}")
    drawn = [["chart", ESCAPE + ".svg", "--blend", "acetone"], ["label", "acetone", ESCAPE + ".pdf"],
             ["label", "acetone", "out.svg", "--name", ESCAPE, "--initials", ESCAPE],
             ["report", "--case", "case.yaml", "--learn", "none", "--doubt", "none", "-o", ESCAPE + ".txt"],
             ["record", "--case", "case.yaml", "--export", ESCAPE + ".csv"],
             ["chart", "out.svg", "--blend", "acetone", "--title", ESCAPE, "--object", ESCAPE]]
    for words in some(drawn, 3):
        run(folder, words, [0, 2], f"escapes: {words}")
        run(folder, [*words, "--json"], [0, 2], f"escapes: {words} --json")


MARKUP = "<i>&lt;\"'</i><script>x</script>%s<span font=\"99\">{}"


def marked_case():
    """The demo case with a number and markup at the end of every text that may hold any."""
    import yaml

    case = yaml.safe_load(common.DEMO.read_text())
    free = {"title", "number", "maker", "date", "technique", "note", "name", "country", "evidence", "grade", "batch",
            "supplier", "by", "decision", "because", "clearing", "note_wet", "note_dry", "note_next_day", "note_uv",
            "photo", "withdrawn_by", "withdrawn_because", "colours"}
    marks = []

    def mark(value, key, path):
        if isinstance(value, dict):
            return {k: mark(v, k, path + (k,)) for k, v in value.items()}
        if isinstance(value, list):
            return [mark(v, key, path) for v in value]
        dated = key == "date" and path[0] in ("tests", "decisions")
        if isinstance(value, str) and key in free and not dated:
            marks.append(f"m{len(marks)}e")
            return f"{marks[-1]} {MARKUP}"
        return value if isinstance(value, (int, float, str)) else str(value)

    case["tests"][0].update({"note_wet": "x", "note_dry": "x", "note_next_day": "x", "note_uv": "x", "photo": "x",
                             "clearing": "x"})
    case["bottles"][0].update({"supplier": "x", "batch": "x", "note": "x", "name": "x"})
    for part in ("object", "studio"):
        case[part]["note"] = "x"
    marked = {key: mark(value, key, (key,)) for key, value in case.items()}
    return yaml.safe_dump(marked, allow_unicode=True, sort_keys=False, width=10 ** 6), marks


class Tags(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.seen = set()
        self.links = []

    def handle_starttag(self, tag, attrs):
        self.seen.add(tag)
        self.links += [value for name, value in attrs if name in ("href", "src", "data", "action", "xlink:href", "style")]


def page_tags(path):
    tags = Tags()
    tags.feed(pathlib.Path(path).read_text())
    return tags


def test_markup(folder):
    text, marks = marked_case()
    common.fill(folder)
    common.fill(folder, case=text)
    run(folder, ["check", "case.yaml", "--date", "2025-02-20"], [0], "markup: check")
    quick = ["report", "--case", "case.yaml", "--learn", "none", "--doubt", "none"]
    run(folder, [*quick, "-o", "out.html"], [0], "markup: report html")
    tags = page_tags(os.path.join(folder, "out.html"))
    common.fill(folder, case=common.CASE)
    run(folder, [*quick, "-o", "plain.html"], [0], "plain: report html")
    plain = page_tags(os.path.join(folder, "plain.html"))
    page = pathlib.Path(folder, "out.html").read_text()
    check("<script" not in page and not {"i", "script", "span"} & (tags.seen - plain.seen),
          f"markup: tags {sorted(tags.seen - plain.seen)}")
    check(page.count("&lt;i&gt;&amp;lt;") > 20, "markup: the texts are not in the page")
    shown = [mark for mark in marks if mark in page]
    check(len(shown) > len(marks) // 2, f"markup: only {len(shown)} of {len(marks)} texts are in the page")
    for mark in shown:
        check(re.search(mark + r"\s*&lt;i&gt;&amp;lt;", page), f"markup: {mark} is not escaped whole")
    common.fill(folder, case=text)
    for words in some([
                  ["chart", "out.svg", "--case", "case.yaml", "--title", MARKUP, "--object", MARKUP],
                  ["label", "acetone", "out.svg", "--name", MARKUP, "--initials", MARKUP],
                  ["layers", "--layer", f"retouching {MARKUP}: pnbma in toluene, done", "--layer", "dammar-fresh in xylenes", "--now", "--threads", "1",
                   "--section", "section.svg", "--title", MARKUP, "--object", MARKUP],
                  ["drying", "acetone", "--chart", "out.svg", "--title", MARKUP, "--object", MARKUP],
                  [*quick, "--sheet", "-o", "out.pdf"]], 2):
        _, talk = run(folder, words, [0, 1, 2], f"markup: {words[:2]}")
        check("Pango" not in talk and "markup" not in talk, f"markup: {words[:2]}: {talk[-200:]!r}")
        for svg in pathlib.Path(folder).glob("*.svg"):
            names = {element.tag.rsplit("}", 1)[-1] for element in xml.etree.ElementTree.parse(svg).iter()}
            check(not names & {"i", "script", "span"}, f"markup: {words[:2]}: tags {sorted(names)}")
    if long and shutil.which("pdftotext"):
        run(folder, [*quick, "-o", "out.pdf"], [0], "markup: report pdf")
        subprocess.run(["pdftotext", "-raw", "out.pdf", "out.text"], cwd=folder, check=True)
        paper = pathlib.Path(folder, "out.text").read_text()
        check(paper.count("<i>&lt;") > 5, "markup: not as text on paper")


def test_photos(folder):
    """Names of photographs are words: nothing is opened, nothing is linked."""
    common.fill(folder)
    os.mkfifo(os.path.join(folder, "pipe.jpg"))  # would be waited for
    names = ["../../../etc/passwd", "/etc/passwd", "file:///etc/passwd", "javascript:alert(1)", "pipe.jpg", "..", "https://x.invalid/a.jpg"]
    rows = "".join(f"  - {{id: P{i}, date: 2025-02-17, passage: sky, layer: varnish, blend: isooctane, result: none, "
                   f"photo: \"{name}\"}}\n" for i, name in enumerate(names))
    pathlib.Path(folder, "case.yaml").write_text(common.CASE + rows)
    for kind in some(("html", "pdf", "txt", "json"), 4):
        run(folder, ["report", "--case", "case.yaml", "--learn", "none", "--doubt", "none", "-o", "out." + kind], [0], f"photos: {kind}")
    page = pathlib.Path(folder, "out.html").read_text()
    tags = page_tags(os.path.join(folder, "out.html"))
    check("passwd" in page and "root:" not in page, "photos: the names are words in the page")
    check(not any(name in (link or "") for link in tags.links for name in ("passwd", "javascript", "invalid", "pipe")),
          f"photos: linked: {tags.links}")
    check(not {"a", "img", "iframe", "object", "embed", "link"} & {tag for tag in tags.seen if tag != "a"}, f"photos: {tags.seen}")


def main():
    global long
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    long = parser.parse_args().long
    for test in (test_yaml, test_csv, test_large, test_no_files, test_targets, test_case_link, test_words, test_markup,
                 test_photos):
        begun = time.monotonic()
        before = checks, len(faults)
        with tempfile.TemporaryDirectory(prefix="mildsolve-hostile-") as folder:
            test(folder)
        print(f"{checks - before[0]:5d} checks, {len(faults) - before[1]} faults, {time.monotonic() - begun:.1f} s: "
              f"{test.__name__[5:]}", flush=True)
    common.finish("hostile files and words", checks, faults, 1500 if long else 300)


main()
