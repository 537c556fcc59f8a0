"""What a part is made from, as drawings and lists say it."""

from __future__ import annotations

from clampwright.trade.sources import source

_UNSURE = {
    "memory": "specification recalled, confirm with the supplier",
    "assumed": "specification assumed, confirm with the supplier",
}
"""What is said of a specification that no document was read for, by its source's status."""


def material_words(name: str, spec: str, spec_source: str) -> str:
    """A material and its temper with the specification that it is ordered by, and whether that is sure.

    Parameters
    ----------
    name, spec : str
        "6061-T6", and "AMS 4027" or "".
    spec_source : str
        Key of the specification's source; "" where there is none.

    Examples
    --------
    >>> material_words("2024-T3", "AMS-QQ-A-250/4", "specification-titles"), material_words("acetal", "", "")
    ('2024-T3 to AMS-QQ-A-250/4, with certificate', 'acetal')
    >>> material_words("4130", "AMS 6350", "specifications-recalled")
    '4130 to AMS 6350, with certificate; specification recalled, confirm with the supplier'
    """
    if not spec:
        return name
    unsure = _UNSURE.get(source(spec_source).status) if spec_source else None
    return f"{name} to {spec}, with certificate" + (f"; {unsure}" if unsure else "")
