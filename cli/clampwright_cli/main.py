"""The `clampwright` command."""

from __future__ import annotations

import os
import sys

import click

from clampwright_cli import (
    bolt_command,
    build_command,
    bundle_command,
    bushing_command,
    check_command,
    clamp_command,
    codes_command,
    drill_command,
    explain_command,
    leave,
    new_command,
    pack_command,
    schema_command,
    survey_command,
    verify_command,
)
from clampwright_cli.own_fault import own_fault, wants_trace

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
@click.pass_context
def commands(context: click.Context) -> None:
    """Parts for things held on engine mount tubes with cushioned loop clamps.

    Measure the tubes (`survey`), write a recipe (`new`), see what it gives (`check`), make the files
    (`build`), pack them for a shop (`pack`), compare what came back
    (`verify`). The look-ups show any value the project uses, with its source.

    For experimental, amateur-built aircraft. The kit maker's instructions and the regulations come first;
    nothing printed here replaces them or the judgement of a qualified person.
    """
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        context.color = False


for _module in (
    new_command,
    check_command,
    build_command,
    pack_command,
    verify_command,
    explain_command,
    bolt_command,
    drill_command,
    clamp_command,
    bundle_command,
    bushing_command,
    codes_command,
    schema_command,
    survey_command,
):
    commands.add_command(_module.command)


def run() -> None:
    """Entry point of the installed script: never a traceback, unless CLAMPWRIGHT_TRACE is set."""
    leave.on_stop_key(lambda: "Stopped. Folders not yet finished are as they were before.")
    try:
        result = commands.main(prog_name="clampwright", standalone_mode=False)
    except click.ClickException as wrong:
        wrong.show()
        raise SystemExit(wrong.exit_code) from None
    except click.Abort:
        raise SystemExit(leave.INTERRUPTED) from None
    except BrokenPipeError:
        sys.stdout = None  # the reader left; flushing again would fail again
        raise SystemExit(leave.DONE) from None
    except OSError as error:
        click.echo(f"The result could not be written out: {error.strerror or error}.", err=True)
        raise SystemExit(leave.NOT_WRITTEN) from None
    except Exception as fault:
        if wants_trace():
            raise
        click.echo(own_fault(fault), err=True)
        raise SystemExit(leave.OWN_FAULT) from None
    raise SystemExit(result if isinstance(result, int) else leave.DONE)


if __name__ == "__main__":
    run()
