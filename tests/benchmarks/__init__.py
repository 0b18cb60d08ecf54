"""Measurements, run by hand and never by the suite:

    python -m tests.benchmarks.sweep --states 1000000   # every invariant over a million states
    python -m tests.benchmarks.planner                  # a plan, a rule engine, a brute force
    python -m tests.benchmarks.papers --sheets 200      # a care sheet, static text, memory

A time is printed, never asserted: it says something about one machine on one day.
"""
