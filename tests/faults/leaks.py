#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every command once under valgrind: nothing lost, nothing read that was never written, nothing touched after its end."""
import pathlib
import subprocess
import tempfile

import common

FAULT = 99
VALGRIND = ["valgrind", "-q", f"--error-exitcode={FAULT}", "--leak-check=full", "--show-leak-kinds=definite,indirect",
            f"--suppressions={common.ROOT / 'tests/support/valgrind.supp'}", "--errors-for-leak-kinds=definite,indirect"]


def fault_of(words):
    with tempfile.TemporaryDirectory(prefix="mildsolve-leaks-") as folder:
        common.fill(folder)
        log = pathlib.Path(folder) / "log"
        done = subprocess.run([*VALGRIND, f"--log-file={log}", common.PROGRAM, *words], cwd=folder,
                              env=common.environment(), stdin=subprocess.DEVNULL, capture_output=True,
                              timeout=10 * common.TIMEOUT_S)
        told = log.read_text(errors="replace")
    print(f"exit status {done.returncode}: {common.title(words)}", flush=True)
    if done.returncode not in (0, 1):
        return f"{common.title(words)}: exit status {done.returncode}: {told[-1500:]}"
    return None


def main():
    commands = common.READERS + [words for words, _ in common.WRITERS]
    found = common.each(fault_of, commands)
    common.finish("commands under valgrind", len(commands), [fault for fault in found if fault], 30)


main()
