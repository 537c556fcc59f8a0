"""The `clampwright` command."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click

from clampwright_cli import (
    bolt_command,
    build_command,
    check_command,
    clamp_command,
    codes_command,
    drill_command,
    explain_command,
    leave,
    new_command,
    schema_command,
)

EPILOG = """\b
Exit status
  0  done; no check failed
  1  done; a check failed (with --strict: or cautions, or is unknown)
  2  the command line is wrong
  3  a recipe cannot be read, or allows no layout
  4  files could not be written
  5  clampwright itself failed; please report it
  130  interrupted
"""


@click.group(epilog=EPILOG, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="clampwright", prog_name="clampwright")
def commands() -> None:
    """Parts for things held on engine mount tubes with cushioned loop clamps.

    Write a recipe (`new`), see what it gives (`check`), make the files (`build`). The look-ups show any
    value the project uses, with its source.

    For experimental, amateur-built aircraft. The kit maker's instructions and the regulations come first;
    nothing printed here replaces them or the judgement of a qualified person.
    """


for _module in (
    new_command,
    check_command,
    build_command,
    explain_command,
    bolt_command,
    drill_command,
    clamp_command,
    codes_command,
    schema_command,
):
    commands.add_command(_module.command)


def run() -> None:
    """Entry point of the installed script: never a traceback, unless CLAMPWRIGHT_TRACE is set."""
    try:
        result = commands.main(prog_name="clampwright", standalone_mode=False)
    except click.ClickException as wrong:
        wrong.show()
        raise SystemExit(wrong.exit_code) from None
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped; what was there before is untouched.", err=True)
        raise SystemExit(leave.INTERRUPTED) from None
    except BrokenPipeError:
        sys.stdout = None  # the reader left; flushing again would fail again
        raise SystemExit(leave.DONE) from None
    except Exception as fault:
        if os.environ.get("CLAMPWRIGHT_TRACE"):
            raise
        click.echo(_own_fault(fault), err=True)
        raise SystemExit(leave.OWN_FAULT) from None
    raise SystemExit(result if isinstance(result, int) else leave.DONE)


def _own_fault(fault: Exception) -> str:
    trace = fault.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f" ({Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno})" if trace else ""
    return (
        f"clampwright failed at its own work{where}: {type(fault).__name__}: {fault}\n"
        "This is a fault of the program, not of the recipe; nothing was left half-written. "
        "Please report it with the recipe. CLAMPWRIGHT_TRACE=1 shows the whole trace."
    )


if __name__ == "__main__":
    run()
