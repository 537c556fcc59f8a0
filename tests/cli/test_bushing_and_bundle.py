"""The look-ups for bushings and bundles, as a person uses them."""

from __future__ import annotations

import re
import subprocess
import sys

import pytest


def clampwright(*words: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *words], capture_output=True, text=True, check=False
    )


def test_seven_equal_wires_are_three_wires_thick() -> None:
    """Six round one: the circle that holds seven equal circles is exactly three of them across."""
    run = clampwright("bundle", "7x0.1 in")
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith("0.300 in (7.62 mm): circle that holds 7 equal wires")
    assert "-05, loop 0.3125 in, with 0.006 in of tape all round" in run.stdout
    assert "measure the bundle" in run.stdout


def test_a_sleeve_counts_twice() -> None:
    assert clampwright("bundle", "1x0.2in", "--sleeve", "0.05 in").stdout.startswith("0.300 in")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("bundle", "7y20"), 'not a number of wires: "7y20"'),
        (("bundle", "0x20"), 'not a number of wires: "0x20"'),
        (("bundle", "2x19"), "no wire of gauge 19"),
        (("bundle", "2x0.1 inn"), 'unknown unit "inn"'),
        (("bushing", "AN3", "0 in"), 'no gap to fill: "0 in"'),
        (("bushing", "AN3", "1 in", "--material", "wood"), "no bushing material 'wood'"),
        (("bushing", "AN9", "1 in"), "AN9"),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, tuple) else "",
)
def test_what_cannot_be_answered_is_said_in_a_line(words: tuple[str, ...], told: str) -> None:
    run = clampwright(*words)
    assert run.returncode == 2
    assert told in run.stderr
    assert run.stdout == ""


def test_gaps_that_a_washer_apart_share_a_length() -> None:
    """20 mm, and 20.8128 mm with one AN960-10L (0.032 in = 0.8128 mm) on it."""
    run = clampwright("bushing", "AN3", "20 mm", "20.8128 mm", "--units", "mm")
    assert run.returncode == 0, run.stderr
    assert re.search(r"S1 +2 +20\.00 mm", run.stdout)
    assert "gap 2 (20.81 mm) + 1 x AN960-10L" in run.stdout


def test_a_small_gap_takes_washers_and_no_bushing() -> None:
    run = clampwright("bushing", "AN3", "0.032 in")
    assert "Bushings to make" not in run.stdout
    assert "gap 1 (0.032 in): AN960-10L" in run.stdout
