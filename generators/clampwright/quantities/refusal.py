"""What is said of a value that is not the quantity asked for."""

from __future__ import annotations


class NotAQuantity(ValueError):  # noqa: N818
    """A text or number that is not the quantity asked for.

    `expected` says what would have been right ("a length such as \"3/4 in\" or 19.05"), `found` what was
    there, `hint` what to do about it (may be empty).
    """

    def __init__(self, expected: str, found: str, hint: str = "") -> None:
        super().__init__(f"expected {expected}, found {found}" + (f" ({hint})" if hint else ""))
        self.expected = expected
        self.found = found
        self.hint = hint


def shown(value: object) -> str:
    """A value as the recipe might have written it, safe to print and short.

    Examples
    --------
    >>> print(shown("3/4 inn"), shown(True), shown([1]))
    "3/4 inn" true a list
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        short = value if len(value) <= 40 else value[:37] + "..."
        return '"' + "".join(c if c.isprintable() else ascii(c)[1:-1] for c in short) + '"'
    if isinstance(value, int):
        return str(value) if value.bit_length() <= 128 else "a whole number of very many digits"
    return str(value) if isinstance(value, float) else f"a {type(value).__name__}"
