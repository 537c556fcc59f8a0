"""`clampwright survey`: from what a builder can measure to tubes that recipes can use."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import options, survey_find, survey_new, survey_sheet, survey_solve

NEXT = """\
Next:
  clampwright survey new my-mount.toml       a survey file to type your measurements into
  clampwright survey sheet my-mount.toml     a form made for its tubes: what to measure, in which order
  clampwright survey solve my-mount.toml     tubes from the measurements, each with its ±
  clampwright survey find mount.step         tubes out of a STEP file or a scan (.stl .ply .obj .xyz)"""


EPILOG = """\b
Exit status
  0  done
  1  done; the survey cannot be used yet, or no tube was found
  2  the command line is wrong
  3  the file cannot be read
  4  files could not be written
  5  clampwright itself failed; please report it
"""


@click.group("survey", invoke_without_command=True, epilog=EPILOG)
@click.option(
    "--out",
    callback=options.folder,
    default="out",
    show_default=True,
    help="Folder that the form's folder goes to.",
)
@click.pass_context
def command(context: click.Context, out: Path) -> None:
    """Measure the aircraft: print the form, solve a tape survey, find tubes in a STEP file or a scan.

    Without a subcommand it writes the blank form to fill in by hand, with how to measure slanted tubes.
    """
    if context.invoked_subcommand is None:
        survey_sheet.write(None, out, False, NEXT)


for _module in (survey_new, survey_sheet, survey_solve, survey_find):
    command.add_command(_module.command)
