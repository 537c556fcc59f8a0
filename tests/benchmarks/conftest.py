"""The benchmark scripts are run by hand; they hold no tests."""

collect_ignore = ["bare_script.py", "budgets.py", "solver.py"]
