"""Bodies in sentences."""

from __future__ import annotations


def capital(what: str) -> str:
    """At the start of a sentence.

    >>> capital("loop of A1")
    'Loop of A1'
    """
    return what[:1].upper() + what[1:]


def is_or_are(what: str) -> str:
    """The verb that goes with a body's name.

    >>> is_or_are("feet of A1"), is_or_are("loop of A1")
    ('are', 'is')
    """
    return "are" if what.startswith(("feet", "washers")) else "is"
