"""`python -m clampwright_cli`."""

from clampwright_cli.main import run

if __name__ == "__main__":
    run()
