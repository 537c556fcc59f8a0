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

    >>> is_or_are("feet of A1"), is_or_are("loop of A1"), is_or_are("Head and washer of A1")
    ('are', 'is', 'are')
    """
    return "are" if what.lower().startswith(("feet", "washers")) or " and " in what else "is"


def uncapital(what: str) -> str:
    """In the middle of a sentence: the first word small.

    >>> uncapital("Move separator")
    'move separator'
    """
    return what[:1].lower() + what[1:]
