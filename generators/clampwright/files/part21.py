"""A reader of STEP files (ISO 10303-21) in plain Python: statements, their kinds and their arguments.

It knows nothing of who wrote the file and shares nothing with the CAD kernel: a second opinion.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from clampwright.files.part21_text import from_part21

_QUOTED = r"'[^']*'"
_STATEMENT = re.compile(rf"\s*([^;']*(?:{_QUOTED}[^;']*)*);")
_INSTANCE = re.compile(r"#(\d+)\s*=\s*(.*)", re.DOTALL)
_COMMENT = re.compile(rf"({_QUOTED})|/\*.*?\*/", re.DOTALL)
_TOKEN = re.compile(
    r"\s*(?:(?P<text>'(?:[^']|'')*')|#(?P<ref>\d+)|(?P<real>[-+]?\d+\.\d*(?:E[-+]?\d+)?)|(?P<whole>[-+]?\d+)"
    r"|\.(?P<word>[A-Z_][A-Z0-9_]*)\.|(?P<binary>\"[0-3][0-9A-F]*\")|(?P<kind>!?[A-Z_][A-Z0-9_]*)|(?P<mark>[(),$*]))"
)
_BASIC = re.compile(r"[\x20-\x7e\s]*\Z")

_ENDS = ("ISO-10303-21", "END-ISO-10303-21")


class NotPart21(ValueError):  # noqa: N818
    """A text that breaks a rule of ISO 10303-21; says which."""


@dataclass(frozen=True, slots=True)
class Ref:
    """A pointer to another instance: #12."""

    to: int


@dataclass(frozen=True, slots=True)
class Word:
    """A value of an enumeration: .MILLI."""

    word: str


@dataclass(frozen=True, slots=True)
class Record:
    """A keyword with its arguments: an entity, a part of one, or a value with its type."""

    kind: str
    arguments: tuple[Argument, ...]


Argument = str | int | float | Ref | Word | Record | tuple["Argument", ...] | None
"""None stands for $ and for *."""


@dataclass(frozen=True, slots=True)
class Part21:
    """A file: its header, and every instance by its number, read when it is asked for."""

    header: dict[str, tuple[Argument, ...]]
    written: dict[int, str]
    """Text of each instance, without its number."""
    _read: dict[int, tuple[Record, ...]] = field(default_factory=dict, repr=False)

    def records(self, number: int) -> tuple[Record, ...]:
        """The records of an instance: one, or several where it is of several kinds at once.

        Raises `NotPart21` where there is no such instance, or its text breaks the grammar.
        """
        if number not in self._read:
            if number not in self.written:
                raise NotPart21(f"#{number} is pointed at and is not there")
            self._read[number] = _records(number, self.written[number])
        return self._read[number]

    def one(self, argument: Argument) -> Record:
        """The only record that a pointer points to; the first where there are several."""
        if not isinstance(argument, Ref):
            raise NotPart21(f"a pointer was expected, not {argument!r}")
        return self.records(argument.to)[0]

    def of_kind(self, kind: str) -> Iterator[tuple[int, Record]]:
        """Every instance of a kind, or of that kind among others, with its number, in the file's order."""
        for number, text in self.written.items():
            if kind in text:
                yield from ((number, record) for record in self.records(number) if record.kind == kind)


def read_part21(data: bytes) -> Part21:
    """A STEP file's instances, its sections checked, its instances not yet.

    Raises
    ------
    NotPart21
        Where a section is missing or out of place, or a number is given twice.

    Examples
    --------
    >>> head, data = "HEADER;FILE_SCHEMA(('A'));ENDSEC;", "DATA;#1=POINT('p',(0.,1.5E1));ENDSEC;"
    >>> found = read_part21(f"ISO-10303-21;{head}{data}END-ISO-10303-21;".encode())
    >>> found.header["FILE_SCHEMA"], found.records(1)[0].arguments
    ((('A',),), ('p', (0.0, 15.0)))
    """
    statements = _statements(data)
    if (statements[0], statements[-1]) != _ENDS:
        raise NotPart21(f"it does not begin with {_ENDS[0]} and end with {_ENDS[1]}")
    head, body = _sections(statements[1:-1])
    header = {record.kind: record.arguments for text in head for record in _records(0, text)}
    written: dict[int, str] = {}
    for text in body:
        found = _INSTANCE.fullmatch(text)
        if found is None:
            raise NotPart21(f"no instance: {text[:40]!r}")
        number = int(found[1])
        if number in written:
            raise NotPart21(f"#{number} is there twice")
        written[number] = found[2]
    return Part21(header, written)


def refuse_bad_part21(file: Part21) -> None:
    """Read every instance: each keeps to the grammar, and each pointer points to one that is there.

    Raises `NotPart21`.
    """
    for number in file.written:
        for to in _pointers(file.records(number)):
            file.records(to)


def _statements(data: bytes) -> list[str]:
    text = data.decode("latin-1")
    if not _BASIC.match(text):
        raise NotPart21("characters outside the basic alphabet")
    if "/*" in text:
        text = _COMMENT.sub(lambda found: found[1] or " ", text)
    found, at = [], 0
    for statement in _STATEMENT.finditer(text):
        if statement.start() != at:
            break
        found.append(statement[1].strip())
        at = statement.end()
    if not found or text[at:].strip():
        raise NotPart21("the file is cut short, or a text in it does not end")
    return found


def _sections(statements: list[str]) -> tuple[list[str], list[str]]:
    """Header and data."""
    try:
        ends = [k for k, text in enumerate(statements) if text == "ENDSEC"]
        data = statements.index("DATA")
        if statements[0] != "HEADER" or ends != [data - 1, len(statements) - 1]:
            raise NotPart21("header and data do not follow one another")
    except (ValueError, IndexError) as missing:
        raise NotPart21("header or data is missing") from missing
    return statements[1 : data - 1], statements[data + 1 : -1]


def _records(number: int, text: str) -> tuple[Record, ...]:
    tokens = _tokens(number, text)
    if tokens and tokens[0] == ("mark", "("):
        found: list[Record] = []
        at = 1
        while tokens[at] != ("mark", ")"):
            record, at = _argument(tokens, at)
            if not isinstance(record, Record):
                raise NotPart21(f"#{number} is made up of something else than records")
            found.append(record)
        if len(found) < 2 or [each.kind for each in found] != sorted(each.kind for each in found):
            raise NotPart21(f"the records of #{number} are not in the order of the alphabet")
        return _all_read(number, tokens, at + 1, tuple(found))
    record, at = _argument(tokens, 0)
    if not isinstance(record, Record):
        raise NotPart21(f"#{number} is no record")
    return _all_read(number, tokens, at, (record,))


def _all_read(
    number: int, tokens: list[tuple[str, str]], at: int, found: tuple[Record, ...]
) -> tuple[Record, ...]:
    if at != len(tokens) - 1:
        raise NotPart21(f"#{number} goes on after its end")
    return found


def _tokens(number: int, text: str) -> list[tuple[str, str]]:
    """Kind and text of each token; an empty one at the end, which nothing reads over."""
    found = []
    at = 0
    while at < len(text):
        token = _TOKEN.match(text, at)
        if token is None:
            if not text[at:].strip():
                break
            raise NotPart21(f"#{number} breaks the grammar at {text[at : at + 20]!r}")
        kind = str(token.lastgroup)
        found.append((kind, token[kind]))
        at = token.end()
    return [*found, ("", "")]


def _argument(tokens: list[tuple[str, str]], at: int) -> tuple[Argument, int]:
    kind, text = tokens[at]
    after = at + 1
    match kind:
        case "text":
            return from_part21(text[1:-1]), after
        case "ref":
            return Ref(int(text)), after
        case "real":
            return float(text), after
        case "whole":
            return int(text), after
        case "word":
            return Word(text), after
        case "binary":
            return text, after
        case "kind":
            arguments, after = _list(tokens, after)
            return Record(text, arguments), after
    if text == "(":
        return _list(tokens, at)
    if text in ("$", "*"):
        return None, after
    raise NotPart21(f"an argument was expected, not {text!r}")


def _list(tokens: list[tuple[str, str]], at: int) -> tuple[tuple[Argument, ...], int]:
    if tokens[at] != ("mark", "("):
        raise NotPart21(f"( was expected, not {tokens[at][1]!r}")
    if tokens[at + 1] == ("mark", ")"):
        return (), at + 2
    found: list[Argument] = []
    while True:
        argument, at = _argument(tokens, at + 1)
        found.append(argument)
        if tokens[at] == ("mark", ")"):
            return tuple(found), at + 1
        if tokens[at] != ("mark", ","):
            raise NotPart21(f", or ) was expected, not {tokens[at][1]!r}")


def _pointers(arguments: tuple[Argument, ...]) -> Iterator[int]:
    for argument in arguments:
        if isinstance(argument, Ref):
            yield argument.to
        elif isinstance(argument, Record):
            yield from _pointers(argument.arguments)
        elif isinstance(argument, tuple):
            yield from _pointers(argument)
