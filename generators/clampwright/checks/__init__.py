"""Checks: a layout to findings; a file a family. A failed check is a value, never an exception.

``all_checks.check(layout)`` hands back every finding, ``all_checks.worst`` their verdict and
``all_checks.catalogue`` what each code means. A new check is one entry in its family's ``CHECKS``, and a new
family one line in ``all_checks.FAMILIES``. ``NOT_JUDGED`` says what no check looks at.
"""

from clampwright.checks.not_judged import NOT_JUDGED

__all__ = ["NOT_JUDGED"]
