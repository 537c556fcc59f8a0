"""Where a list that TOML finds no end of was to end: mostly far above the line that it stumbles over."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

_IN_QUOTES = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')
_COMMENT = re.compile(r"#.*")
_BEGINS_ANEW = re.compile(r"\s*([\w.\"' -]+=|\[+[\w.\"' -]+\]+\s*$)")
"""A line that is no row of a list: key = value, or a heading."""


@dataclass(frozen=True, slots=True)
class End:
    """Where a ] is missing: line and column counted from 1, and what to do there."""

    line: int
    column: int
    hint: str


@dataclass(frozen=True, slots=True)
class _Bracket:
    line: int
    begins_row: bool
    """Whether it stands inside another and is not followed by one more, or by the line's end."""


def missing_end(lines: Sequence[str], number: int, at_end: bool) -> End | None:
    """The place of a missing ] for a fault in line `number`, counted from 1; None where it is that line.

    `at_end` says that the whole text was read without finding one.

    >>> missing_end(['d = [', '  ["F1", "A", 20,', '  ["F2", "A", 21],', ']', 'x = 1'], 5, False)
    End(line=2, column=18, hint='the row needs its ] on this line')
    >>> missing_end(['d = [', '  ["F1", "A", 20],', '', '[plate]'], 4, False)
    End(line=2, column=19, hint='the list opened in line 1 needs its ] after this')
    """
    plain = [_plain(line) for line in lines[: number if at_end else number - 1]]
    still_open, rows = _brackets(plain)
    if rows:
        return End(rows[0].line, _column(plain, rows[0].line), "the row needs its ] on this line")
    if not still_open or not (at_end or _BEGINS_ANEW.match(_plain(lines[number - 1]))):
        return None
    opened = still_open[0].line
    last = max(n for n in range(opened, len(plain) + 1) if plain[n - 1].strip())
    elsewhere = f"the list opened in line {opened} needs its ] after this"
    hint = "the list opened here needs its ]" if last == opened else elsewhere
    return End(last, _column(plain, last), hint)


def _brackets(plain: Sequence[str]) -> tuple[list[_Bracket], list[_Bracket]]:
    """The brackets that are open at the end, and those of rows that do not end on their own line."""
    stack: list[_Bracket] = []
    rows: list[_Bracket] = []
    for number, line in enumerate(plain, 1):
        if not stack and line.lstrip().startswith("["):
            continue
        for at, sign in enumerate(line):
            if sign == "[":
                follows = line[at + 1 :].strip()
                row = bool(stack and follows and not follows.startswith("["))
                stack.append(_Bracket(number, row))
            elif sign == "]" and stack:
                stack.pop()
        rows += [each for each in stack if each.begins_row and each.line == number]
    return stack, rows


def _plain(line: str) -> str:
    """A line with nothing that counts in its quotes, and without its comment; columns stay as they are."""
    return _COMMENT.sub("", _IN_QUOTES.sub(lambda text: "'" + "_" * (len(text[0]) - 2) + "'", line)).rstrip()


def _column(plain: Sequence[str], line: int) -> int:
    return len(plain[line - 1]) + 1
