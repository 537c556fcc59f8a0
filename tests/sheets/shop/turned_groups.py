"""Groups of turned pieces made up for tests, and what a reader finds on a turning sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.checks.finding import Finding
from clampwright.files.shop_drawings import turned_views
from clampwright.layout.shop.told import ForWhich, TurnedGroup
from clampwright.quantities import length_mm
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Page, Sheet, Text
from clampwright.sheets.shop.turning_sheet import TurningHead, turning_sheet
from clampwright.trade.limits import Limits

LENGTH = Limits(0.1, 0.1, "so that the bolt draws no gap shut", "assumed")
BORE = Limits(0.1159, 0.3095, "so that it slides over AN3 and does not rattle", "assumed")
CHAMFER = Limits(0.1, 0.1, "no general tolerance holds so small", "practice")
FAILING = Finding("GAP-1", "a gap", "A1", "fail", 1.0, 2.0, "mm", "", "", ())


def group(
    number: int = 1,
    length: float = 12.7,
    od: float = 11.1125,
    bore: float = 5.0165,
    *,
    quantity: int = 2,
    recipe: str = "made-up",
    stock: str = "tube 7/16 in x 0.120 in wall, 6061-T6",
    where: tuple[str, ...] = ("A1", "A2"),
) -> TurnedGroup:
    """A group; its chamfer is what the wall and the length leave room for."""
    return TurnedGroup(
        number=f"T{number}",
        length_mm=length,
        length=LENGTH,
        od_mm=od,
        od=None,
        bore_mm=bore,
        bore=BORE,
        chamfer_mm=min(0.3, (od - bore) / 6, length / 3),
        square_mm=0.05,
        square_why="two faces open a seat by 0.10 mm and rock the head 0.5° at most",
        make="tube",
        material="6061-T6",
        stock=stock,
        quantity=quantity,
        mass_each_kg=0.002,
        belongs=(ForWhich(recipe, "0123456789abcdef", f"S{number}", where, quantity),),
        chamfer=CHAMFER,
        bolt="AN3",
    )


def sheet_of(groups: Sequence[TurnedGroup], units: str = "mm", *, failing: bool = False) -> Sheet:
    """Their turning sheet, drawn from real solids."""
    head = TurningHead("made-up-turning", "invented for a test", "0123456789abcdef", units)
    findings = (FAILING,) if failing else ()
    return turning_sheet(groups, usual_shop(units), head, findings, turned_views(groups))


def lines_of(sheet: Sheet) -> Iterator[tuple[str, ...]]:
    """Every line of the table as printed: the texts level with a group's number, up to the next number."""
    for page in sheet.pages:
        texts = [item for item in page.items if isinstance(item, Text)]
        firsts = [text for text in texts if is_number(text)]
        for first in firsts:
            x, y = first.at
            end = min([t.at[0] for t in firsts if t.at[0] > x + 1.0], default=page.width_mm)
            level = [t for t in texts if abs(t.at[1] - y) < 1e-6 and x <= t.at[0] < end]
            yield tuple(t.text for t in sorted(level, key=lambda text: text.at[0]))


def is_number(text: Text) -> bool:
    """Whether it is a group's number at the head of a line."""
    return text.bold and text.text[:1] == "T" and text.text[1:].isdigit()


def numbers(words: str, units: str) -> tuple[float, ...]:
    """The numbers that words say, in mm: what a reader would type. ± and signs: + is kept as +, - as -."""
    found = [word.strip("±[]Ø") for word in words.split()]
    return tuple(float(each) * length_mm(1.0, units) for each in found if each.lstrip("+-")[:1].isdigit())


def texts_of(page: Page) -> list[Text]:
    """Every text of a page, those of dimensions too."""
    return [item for item in page.drawn() if isinstance(item, Text)]
