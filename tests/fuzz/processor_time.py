#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""processor_time.py FILE COMMAND ...: runs a command and writes the seconds of processor time, user and system, that it
and all its descendants used to FILE, those it left behind too. Exits as the command."""
import ctypes
import os
import resource
import signal
import sys

BECOME_REAPER = 36  # PR_SET_CHILD_SUBREAPER of <sys/prctl.h>: orphans become children of this process
ctypes.CDLL(None).prctl(BECOME_REAPER, 1, 0, 0, 0)
command = os.spawnvp(os.P_NOWAIT, sys.argv[2], sys.argv[2:])
signal.signal(signal.SIGINT, signal.SIG_IGN)  # the command gets it too
exit_status = 1
while True:
    try:
        process, status = os.wait()
    except ChildProcessError:
        break
    if process == command:
        exit_status = os.waitstatus_to_exitcode(status)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
with open(sys.argv[1], "w", encoding="ascii") as file:
    file.write(f"{used.ru_utime + used.ru_stime:.2f}\n")
sys.exit(exit_status if exit_status >= 0 else 128 - exit_status)
