"""The reader of ISO 10303-21 against small files written by hand; rules of the grammar as recalled."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.files.part21 import NotPart21, Record, Ref, Word, read_part21, refuse_bad_part21
from clampwright.files.part21_text import as_part21, from_part21

HEAD = "ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('X'));\nENDSEC;\nDATA;\n"
FOOT = "ENDSEC;\nEND-ISO-10303-21;\n"


def whole(data: str) -> bytes:
    """A file with these statements."""
    return f"{HEAD}{data}{FOOT}".encode("latin-1")


def test_every_kind_of_argument() -> None:
    text = "#1 = A('it''s; #2',-3,.5E,$,*,.T.,(1.25E-3,()),#2,LENGTH_MEASURE(2.));\n#2=B();\n"
    with pytest.raises(NotPart21, match="#1 breaks the grammar"):
        refuse_bad_part21(read_part21(whole(text)))
    file = read_part21(whole(text.replace(".5E", "5.")))
    (record,) = file.records(1)
    assert record == Record(
        "A",
        ("it's; #2", -3, 5.0, None, None, Word("T"), (0.00125, ()), Ref(2), Record("LENGTH_MEASURE", (2.0,))),
    )
    refuse_bad_part21(file)


def test_an_instance_of_several_kinds_stands_in_the_order_of_the_alphabet() -> None:
    file = read_part21(whole("#1 = ( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.MILLI.,.METRE.) );\n"))
    assert [record.kind for record in file.records(1)] == ["LENGTH_UNIT", "NAMED_UNIT", "SI_UNIT"]
    assert [number for number, _ in file.of_kind("SI_UNIT")] == [1]
    turned = read_part21(whole("#1 = ( NAMED_UNIT(*) LENGTH_UNIT() );\n"))
    with pytest.raises(NotPart21, match="alphabet"):
        turned.records(1)


def test_comments_and_broken_lines_count_for_nothing() -> None:
    file = read_part21(whole("#1 /* a; 'b' */ = A(\n  '/* kept */'\n  ,\n1.);\n"))
    assert file.records(1)[0].arguments == ("/* kept */", 1.0)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("#1=A(#2);", "#2 is pointed at and is not there"),
        ("#1=A();#1=A();", "#1 is there twice"),
        ("#1=A(1;", "expected"),
        ("#1=A(1 2);", "expected"),
        ("#1=A(1))  ;", "goes on after its end"),
        ("A();", "no instance"),
        ("#1=A('x);", "cut short"),
        ("#1=a();", "breaks the grammar"),
        ("#1=A(1.E);", "breaks the grammar|expected"),
        ("#1=A('\xe9');", "basic alphabet"),
        ("#1=(A());", "alphabet"),
        ("#1=3.;", "no record"),
        ("ENDSEC;", "missing|follow"),
    ],
)
def test_a_broken_rule_is_refused(data: str, says: str) -> None:
    with pytest.raises(NotPart21, match=says):
        refuse_bad_part21(read_part21(whole(data)))


@pytest.mark.parametrize("cut", [0, 10, len(HEAD), -3, -len(FOOT)])
def test_a_file_cut_short_is_refused(cut: int) -> None:
    with pytest.raises(NotPart21):
        read_part21(whole("#1=A();\n")[:cut])


@given(st.text(max_size=40))
@settings(deadline=None, max_examples=200)
def test_any_text_comes_back(text: str) -> None:
    text = "".join(c for c in text if not 0xD800 <= ord(c) < 0xE000)
    written = as_part21(text)
    assert written.isascii()
    assert written.isprintable()
    assert from_part21(written) == text
    assert read_part21(whole(f"#1=A('{written}');")).records(1)[0].arguments == (text,)
