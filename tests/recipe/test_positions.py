"""The position map against the standard library's TOML reader: every leaf has a place, and stands there."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.recipe.positions import KeyPath, Place, positions

BARE = st.sampled_from(["a", "b", "od", "x-1", "tube_2", "3", "-"])
KEYS = st.one_of(BARE, st.sampled_from(['"a b"', "'c.d'", '"\\u00e9"', '"q\\"e"', '""', "'#'"]))
GAPS = st.sampled_from(["", " ", "\t", "  "])
BREAKS = st.sampled_from(["", " ", "\n", " # remark ] } \" '\n", "\r\n\t"])
NEWLINES = st.sampled_from(["\n", "\r\n", " # [not.a.heading]\n", "\n\n# ['x'\n"])


@st.composite
def scalars(draw: st.DrawFn) -> str:
    """A value of one token, in every notation TOML has."""
    number = draw(st.integers(0, 10**6))
    plain = [
        "{n}",
        "-{n}",
        "{n}.5e3",
        "0x{n}",
        "true",
        "inf",
        "-nan",
        "1979-05-27",
        "1979-05-27 07:32:00",
        "07:32:00",
    ]
    texts = [
        '"t{n}"',
        "'t{n}'",
        '"a \\" # \\\\ {n}"',
        "'C:\\{n}'",
        '""',
        "''",
        '"""{n}"""',
        '"""\n"{n}" and ""\\\n  x\\""""',
        "'''{n}\n'' ' # \"'''''",
        '""""{n}"""""',
        "''''''",
    ]
    return draw(st.sampled_from(plain + texts)).replace("{n}", str(number))


@st.composite
def arrays(draw: st.DrawFn, inner: st.SearchStrategy[str]) -> str:
    """An array over several lines, with remarks and perhaps a last comma."""
    parts = [draw(BREAKS) + value + draw(BREAKS) for value in draw(st.lists(inner, max_size=3))]
    last = "," + draw(BREAKS) if parts and draw(st.booleans()) else ""
    return "[" + ",".join(parts) + last + draw(BREAKS) + "]"


@st.composite
def inline_tables(draw: st.DrawFn, inner: st.SearchStrategy[str]) -> str:
    """A table in braces, with dotted keys of its own."""
    pairs = draw(st.lists(st.tuples(KEYS, inner), max_size=3))
    dotted = [(f"k{i}." if draw(st.booleans()) else f"k{i}") for i in range(len(pairs))]
    parts = [
        draw(GAPS) + (d + k if d.endswith(".") else d) + draw(GAPS) + "=" + draw(GAPS) + v + draw(GAPS)
        for d, (k, v) in zip(dotted, pairs, strict=True)
    ]
    return "{" + ",".join(parts) + "}"


VALUES = st.recursive(scalars(), lambda inner: st.one_of(arrays(inner), inline_tables(inner)), max_leaves=6)
DOTTED = st.lists(KEYS, min_size=1, max_size=3)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """Lines of keys, headings and blocks. Some documents repeat a key, which TOML refuses."""
    text = draw(st.sampled_from(["", "\n", "# first\n"]))
    for number in range(draw(st.integers(1, 7))):
        dotted = (draw(GAPS) + "." + draw(GAPS)).join(draw(DOTTED))
        sort = draw(st.sampled_from(["key", "key", "key", "table", "block"]))
        if sort == "key":
            own = f"k{number}." if draw(st.booleans()) else ""
            text += draw(GAPS) + own + dotted + draw(GAPS) + "=" + draw(GAPS) + draw(VALUES)
        else:
            opening, closing = ("[", "]") if sort == "table" else ("[[", "]]")
            text += draw(GAPS) + opening + draw(GAPS) + dotted + draw(GAPS) + closing
        text += draw(NEWLINES)
    return text


def leaves(value: object, path: KeyPath = ()) -> Iterator[tuple[KeyPath, object]]:
    """Every value with its path: those that hold no others, and those that do."""
    if path:
        yield path, value
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for part, below in inner:
        yield from leaves(below, (*path, part))


def place_of(places: Place, path: KeyPath) -> Place:
    """The place of a path; KeyError where the map lacks it."""
    for part in path:
        places = places.inside[part]
    return places


def after(text: str, line: int, column: int) -> str:
    """The text from a place on."""
    lines = text.split("\n")
    assert 1 <= line <= len(lines)
    assert 1 <= column <= len(lines[line - 1]) + 1
    return "\n".join([lines[line - 1][column - 1 :], *lines[line:]])


def starts_with_value(rest: str, value: object) -> bool:
    """Whether a text starts with a TOML value that reads as `value`."""
    if isinstance(value, list):
        return rest.startswith("[")
    if isinstance(value, dict):
        return rest.startswith(("[", "{"))
    for end in range(1, len(rest) + 1):
        try:
            read = tomllib.loads("v = " + rest[:end])["v"]
        except tomllib.TOMLDecodeError:
            continue
        if read == value or (read != read and value != value):
            return True
    return False


def starts_with_key(rest: str, key: str) -> bool:
    """Whether a text starts with a key, bare or quoted, that reads as `key`."""
    if rest.startswith(key) and key:
        return True
    ends = (end for end in range(2, len(rest) + 1) if rest[end - 1] == rest[0])
    for end in ends:
        try:
            return tomllib.loads(rest[:end] + " = 1") == {key: 1}
        except tomllib.TOMLDecodeError:
            continue
    return False


def check(text: str) -> int:
    """Judge every place of a text; how many there are."""
    data, places = tomllib.loads(text), positions(text)
    found = list(leaves(data))
    for path, value in found:
        place = place_of(places, path)
        plain = text.replace("\r\n", "\n")
        if not (isinstance(value, dict) and place.value == place.key):
            rest = after(plain, place.value.line, place.value.column)
            assert starts_with_value(rest, value), (path, place)
        if isinstance(path[-1], str):
            assert starts_with_key(after(plain, place.key.line, place.key.column), path[-1]), (path, place)
    return len(found)


@settings(deadline=None, max_examples=250)
@given(documents())
def test_every_leaf_has_a_place_and_stands_there(text: str) -> None:
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    check(text)


def test_the_generator_makes_documents_that_toml_accepts_and_that_hold_much() -> None:
    """The property above is worth something only where most documents are read."""
    counts: list[int] = []
    tries = count()

    @settings(deadline=None, max_examples=100, database=None)
    @given(documents())
    def sample(text: str) -> None:
        next(tries)
        try:
            counts.append(len(list(leaves(tomllib.loads(text)))))
        except tomllib.TOMLDecodeError:
            return

    sample()
    assert len(counts) > next(tries) / 3
    assert max(counts) > 8


@settings(deadline=None, max_examples=300)
@given(st.text(alphabet="ab.=[]{}\"'\\,# \n1\t", max_size=40))
def test_no_text_that_toml_accepts_makes_it_stumble(text: str) -> None:
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    check(text)


EXAMPLE = """\
a.b."c d" = 1 # x
'q"x'.z = \"\"\"two
lines\"\"\"
arr = [1, # one
  [2, {x = 3, y.z = [4, 5]}], "#,]"
]
[t.u]
v = 1979-05-27 07:32:00
[[bl]]
k = 1
[[bl]]
k = 2
[[bl.sub]]
z = 1
[[bl.sub]]
z = {a = {}, b = []}
[bl.tt]
e = '''x'y''z'''''
"""


@pytest.mark.parametrize(
    ("path", "key", "value"),
    [
        (("a", "b", "c d"), (1, 5), (1, 13)),
        (('q"x', "z"), (2, 7), (2, 11)),
        (("arr",), (4, 1), (4, 7)),
        (("arr", 1, 1, "y", "z", 1), (5, 25), (5, 25)),
        (("t", "u"), (7, 4), (7, 1)),
        (("t", "u", "v"), (8, 1), (8, 5)),
        (("bl", 1), (11, 1), (11, 1)),
        (("bl", 1, "k"), (12, 1), (12, 5)),
        (("bl", 1, "sub", 1, "z", "b"), (16, 14), (16, 18)),
        (("bl", 1, "tt", "e"), (18, 1), (18, 5)),
    ],
)
def test_places_counted_by_hand(path: KeyPath, key: tuple[int, int], value: tuple[int, int]) -> None:
    place = place_of(positions(EXAMPLE), path)
    assert (place.key.line, place.key.column) == key
    assert (place.value.line, place.value.column) == value


def test_a_path_that_is_not_written_has_the_place_around_it() -> None:
    places = positions(EXAMPLE)
    assert places.find(("bl", 1, "mass", 3)) is places.find(("bl", 1))
    assert places.find(("nowhere",)) is places


def test_depth_is_no_matter_where_toml_accepts_it() -> None:
    deep = "a = " + "[" * 300 + "1" + "]" * 300
    assert place_of(positions(deep), ("a", *[0] * 300)).value.column == 305
    assert place_of(positions(".".join(["k"] * 3000) + " = 1"), ("k",) * 3000).value.line == 1
