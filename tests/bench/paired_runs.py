#!/usr/bin/env python3
"""Runs two commands in turn and prints how many times as fast, and as small, the second one is.

  paired_runs.py ROUNDS 'COMMAND A' 'COMMAND B'

Prints: ratio of wall time, of processor time (user + system, with child processes), of peak memory (of the largest
process), each A / B; the medians over rounds of the ratios of one round, so that a machine that gets slower or faster
meanwhile, or is shared, does not change them much. A first round is not counted.
"""
import os
import shlex
import statistics
import sys
import time


def run(command):
    """Wall seconds, processor seconds and peak KiB of one run."""
    start = time.monotonic()
    arguments = shlex.split(command)
    silent = [(os.POSIX_SPAWN_OPEN, fd, os.devnull, os.O_WRONLY, 0) for fd in (1, 2)]
    child = os.posix_spawnp(arguments[0], arguments, os.environ, file_actions=silent)
    _, status, usage = os.wait4(child, 0)
    wall_s = time.monotonic() - start
    if os.waitstatus_to_exitcode(status) != 0:
        sys.exit(f"{command}: exit status {os.waitstatus_to_exitcode(status)}")
    return wall_s, usage.ru_utime + usage.ru_stime, usage.ru_maxrss


def main():
    rounds = int(sys.argv[1])
    commands = sys.argv[2:4]
    ratios = []
    for number in range(rounds + 1):
        a, b = (run(command) for command in commands)
        if number > 0:
            ratios.append([x / y for x, y in zip(a, b)])
    wall, processor, memory = (statistics.median(column) for column in zip(*ratios))
    print(f"wall {wall:6.1f}   processor {processor:6.1f}   memory {memory:6.1f}")


main()
