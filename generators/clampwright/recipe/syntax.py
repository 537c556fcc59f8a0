"""What the TOML reader says about a text, in words for the person who wrote it."""

from __future__ import annotations

import re

from clampwright.recipe.faults import Fault
from clampwright.recipe.syntax_in_lists import list_hint
from clampwright.recipe.syntax_unclosed import missing_end
from clampwright.recipe.written import printable, quoted

_AT = re.compile(r"(.*?) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)

_SAYS: tuple[tuple[str, str, str], ...] = (
    # start of the TOML reader's message, what was expected, hint where no closer one is found
    ("Cannot declare", "each [table] once", "put the keys of both under one heading"),
    ("Cannot overwrite", "each key of a table once", "keep one of the two"),
    ("Duplicate inline table key", "each key of a table once", "keep one of the two"),
    (
        "Cannot mutate immutable",
        "each table in one place",
        "write it either as key = {...} or under its heading",
    ),
    ("Cannot redefine", "each table in one place", "the same table stands further up in another form"),
    (
        "Unclosed array",
        "the end of a list",
        "a list opened with [ needs its ] and commas between its entries",
    ),
    (
        "Unclosed inline table",
        "the end of a table in braces",
        "what opens with { needs its } on the same line",
    ),
    ("Unterminated string", "a closing quote", 'what opens with a " needs its "'),
    ("Illegal character '\\n'", "a closing quote on this line", 'what opens with a " needs its "'),
    ("Unescaped '\\' in a string", "a text without backslashes", "write / for \\, also in file names"),
    ("Expected '='", "key = value", "a key is one word, with _ for spaces; a note needs a # before it"),
    ("Invalid initial character for a key", "key = value", "a key is one word of letters, digits, _ and -"),
    ("Invalid statement", "key = value or a [heading]", "a note needs a # before it"),
    ("Expected ']", "a heading such as [plate] or [[carries]]", "close it with as many ] as it has ["),
    ("Expected newline", "one key = value on a line", 'text and fractions stand in quotes: "3/4 in"'),
    ("Found invalid character", "plain text", "delete the character; it may not be seen in an editor"),
    ("Invalid value", "a number, true, false, a list, or a text in quotes", 'put text in quotes: "3/4 in"'),
    ("Invalid date", "a value that is no date", 'put text in quotes: "3/4 in"'),
)

_IN_A_LIST = ("Unclosed array", "Invalid value")
"""Start of what the TOML reader says where a list is wrong."""

_HEADING = re.compile(r"\[+[\w.-]+\]+\s*(?:#.*)?")
_ROW_WITHOUT_START = re.compile(
    r"""(?:["'][^"']*["']|[\d.]+)(?:\s*,\s*(?:["'][^"']*["']|[\d.]+))+\s*\]\s*,?"""
)

_ONCE = " once"
"""End of what is expected where something stands twice."""

_LOOKS_LIKE: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"=[^#\"']*[“”„‘’″]"), 'use straight quotes: "'),
    (re.compile(r"""=\s*(\.\d+)\s*(?:[#,\]]|$)"""), "write a zero before the point: 0{0}"),
    (re.compile(r"=\s*(#\s*\d+)"), 'put it in quotes, for a bare # starts a comment: "{0}"'),
    (re.compile(r"=\s*(\d+),(\d+)\s*(?:#|$)"), "write decimals with a point: {0}.{1}"),
    (re.compile(r"=\s*(-?[\d.]+(?:\s*,\s*-?[\d.]+)+)\s*(?:#|$)"), "put a list in brackets: [{0}]"),
    (re.compile(r"=\s*(True|False|TRUE|FALSE)\b"), "write true or false in small letters"),
    (re.compile(r"""=\s*([^\s"'\[{#][^"'\[\]{}#]*?)\s*(?:#.*)?$"""), 'put it in quotes: "{0}"'),
    (re.compile(r"=\s*(?:#.*)?$"), "the value is missing; delete the line to take the default"),
    (re.compile(r"^([\w-]+)\s*:\s*\S"), "write = for the colon"),
    (re.compile(r"^([A-Za-z]\w*) (\w+)\s*="), "write {0}_{1}"),
)


def syntax_fault(text: str, shown: str, message: str) -> Fault:
    """The fault for a message of the TOML reader such as "Invalid value (at line 3, column 5)".

    >>> syntax_fault("od = 3/4 in", "t.toml", "Expected newline (at line 1, column 7)").hint
    'put it in quotes: "3/4 in"'
    """
    match = _AT.fullmatch(message)
    what, line, column = match.groups() if match else (message, None, None)
    end = text.rstrip()
    number = int(line) if line else end.count("\n") + 1
    at = int(column) if column else len(end) - (end.rfind("\n") + 1) + 1
    written = text.split("\n")[number - 1].strip()
    expected, hint = _said(what, written)
    if what.startswith(_IN_A_LIST):
        lines = text.split("\n")
        in_line = "" if line is None or _HEADING.fullmatch(written) else printable(list_hint(lines, number))
        missing = None if in_line else missing_end(lines, number, line is None)
        hint = in_line or hint
        if missing is not None:
            expected, number, at, hint = "the end of a list", missing.line, missing.column, missing.hint
            written = lines[number - 1].strip()
    elif _ROW_WITHOUT_START.fullmatch(written):
        hint = "each row of a list begins with a [ of its own"
    if expected.endswith(_ONCE):
        hint = _stands_already(text.split("\n")[: number - 1], written) or hint
    return Fault(shown, number, at, "", expected, quoted(written) if written else "an empty line", hint)


def _stands_already(above: list[str], written: str) -> str:
    """A hint that names the line where a heading, or a key below the same heading, stands already."""
    name = written.split("]")[0] if written.startswith("[") else written.split("=")[0].rstrip()
    for number, line in reversed(list(enumerate(above, 1))):
        start = line.strip()
        if start.split("]" if written.startswith("[") else "=")[0].rstrip() == name:
            return f"it stands in line {number} already; keep one of the two"
        if start.startswith("[") and not written.startswith("["):
            break
    return ""


def _said(what: str, written: str) -> tuple[str, str]:
    for start, expected, hint in _SAYS:
        if what.startswith(start):
            return expected, _closer_hint(start, written) or hint
    return "a text that follows the rules of TOML", quoted(what)[1:-1]


def _closer_hint(start: str, written: str) -> str:
    """What the line itself suggests, where it is the line and not its place that is wrong."""
    if not start.startswith(("Invalid", "Expected")) or written.startswith("["):
        return ""
    for pattern, hint in _LOOKS_LIKE:
        if match := pattern.search(written):
            return hint.format(*(quoted(group)[1:-1] for group in match.groups()))
    return ""
