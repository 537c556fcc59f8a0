"""READ-ME-FIRST.txt: all that a shop which has never met the builder must know, in three minutes."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.all_checks import grouped
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.files.maker import MANIFEST, made_by
from clampwright.files.pack import read_me_questions, read_me_shop
from clampwright.files.pack.bay import Job, sets_said
from clampwright.files.pack.contents import Contents
from clampwright.files.pack.placed_file import FOLDERS
from clampwright.files.pack.plain_text import box, columns, paragraph, text_bytes, title
from clampwright.files.written import Written
from clampwright.sheets.verdict import CAUTIONS

NAME = "READ-ME-FIRST.txt"
_MOST = 20
"""Failing findings that the frame at the top tells, one of each recipe at least."""
STOP = "DO NOT MAKE THESE PARTS AS THEY ARE: A CHECK FAILS."


def read_me(contents: Contents) -> Written:
    """The read-me of a pack whose other files, all but the manifest, are in `contents`."""
    return Written(NAME, text_bytes(_lines(contents)), "What this pack is, and which file is which")


def _lines(contents: Contents) -> Iterator[str]:
    yield from _head(contents)
    yield from _who()
    yield from read_me_shop.parts(contents)
    yield from read_me_shop.which_file(contents)
    if contents.flat or contents.turned:
        yield from read_me_shop.terms(contents)
        yield from read_me_questions.questions(contents)
    yield from _builder(contents)
    yield from _not_verified(contents)
    yield from _cautions()
    yield from _files(contents)


def _head(contents: Contents) -> Iterator[str]:
    bay = contents.bay
    yield "READ ME FIRST"
    yield "============="
    if bay.failing:
        yield ""
        yield from box(
            [STOP, *(line for job in bay.failing for line in _stop(job, max(1, _MOST // len(bay.failing))))]
        )
    yield ""
    yield from paragraph(
        "Small parts that hold things on the tubes of an engine mount, for an experimental, amateur-built "
        "aircraft. Everything you need to quote and to make them is in this folder. You need not know the "
        "aircraft, and no measurement of it is yours to take."
    )
    yield ""
    for job in bay.jobs:
        recipe = job.recipe
        said = f"{recipe.about or recipe.kind}; {sets_said(recipe.shop.quantity)}; revision {recipe.digest}"
        yield from paragraph(said, first=f"{recipe.name}: ")
    if len(bay.jobs) > 1:
        yield from paragraph(f"All of it together is revision {bay.digest}.")


def _stop(job: Job, most: int) -> Iterator[str]:
    """What fails, and what to change, for the frame at the top: of at most so many findings."""
    yield ""
    yield f"{job.recipe.name}: every file to make it from says so too. Ask the builder before you cut."
    found = list(grouped(job.failing))
    for finding in found[:most]:
        yield f"{finding.code} {finding.where}: {finding.says} The builder's cure: {finding.change}"
    if len(found) > most:
        yield f"And {len(found) - most} more: findings/findings.txt has them all."


def _who() -> Iterator[str]:
    yield from title("WHO TO ASK")
    yield ""
    yield "The builder:  name ___________________________  phone ______________________"
    yield ""
    yield from paragraph(
        "Please ask before you change anything, and say so on the delivery note where something came out "
        "otherwise than drawn: a part a little off can often be used, but only if the builder knows."
    )


def _builder(contents: Contents) -> Iterator[str]:
    yield from title("FOR THE BUILDER")
    rows = [
        ("lists/order-list.csv", "hardware of all recipes with spares, torque and use; bars and sheets"),
        ("inspection/", "one page for the next mechanic: print it and keep it with the aircraft"),
        ("findings/", "what the checks found, with sources: give it to whoever inspects the work"),
    ]
    yield from columns(rows)
    yield ""
    yield from paragraph(
        "Not in here: the 1:1 drill template, the drill sheet, tube wraps and the installation sheet. They "
        "are for the bench and the aircraft, not for a shop: `clampwright build` writes them. Once the parts "
        "are back, measure them and let `clampwright verify` say whether they fit."
    )


def _not_verified(contents: Contents) -> Iterator[str]:
    """What rests on defaults, for the builder: one line a thing."""
    found = [(job, f) for job in contents.bay.jobs for f in job.findings if f.verdict == "unknown"]
    if not found:
        return
    yield from title("NOT VERIFIED")
    yield from paragraph(
        "These rest on values that nobody measured. Builder: measure them before you order the parts; what "
        "to do stands in findings/findings.txt."
    )
    for job in contents.bay.jobs:
        places: dict[tuple[str, str], list[str]] = {}
        for _, finding in (each for each in found if each[0] is job):
            places.setdefault((finding.code, finding.what), []).append(finding.where)
        for (code, what), where in places.items():
            text = f"{job.recipe.name}: {what} ({code}): {', '.join(dict.fromkeys(where))}"
            yield from paragraph(text, first="- not verified: ")


def _cautions() -> Iterator[str]:
    yield from title("CAUTIONS")
    for text in (*CAUTIONS, NOT_JUDGED):
        yield from paragraph(text, first="- ")


def _files(contents: Contents) -> Iterator[str]:
    """Every file, by folder."""
    yield from title("EVERY FILE IN HERE")
    yield f"{NAME}: this text"
    yield f"{MANIFEST}: SHA-256 of every file, revisions, versions"
    for folder in ("", *FOLDERS):
        files = [each for each in contents.files if each.folder == folder]
        yield from [""] if files else []
        for each in files:
            yield from paragraph(each.file.about, first=f"{each.path}: ")
    yield ""
    yield f"Packed by {made_by()}."
