"""How hard a bolt pulls when it is tightened by torque, and what its spacer and its heat make of that."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from clampwright.layout.placed import Stack
from clampwright.trade.bolts import bolt
from clampwright.trade.pressed import pressed
from clampwright.trade.tables import rule

RULES = ("nut-factor", "preload-scatter")


@dataclass(frozen=True, slots=True)
class Preload:
    """Pull of a bolt in N: at the low and high end of its torque window, and with the scatter on top."""

    least: float
    low: float
    high: float
    most: float


def preload_n(torque_nm: float, nominal_mm: float) -> float:
    """Pull of a bolt by its torque, N: F = T/(K d).

    >>> round(preload_n(2.82, 4.826))
    2922
    """
    return torque_nm / (rule("nut-factor").value * nominal_mm / 1000.0)


def preload(stack: Stack) -> Preload | None:
    """The preload of a stack by its torque window; None where no torque is known."""
    if stack.torque is None:
        return None
    size, scatter = bolt(stack.bolt).nominal_mm, rule("preload-scatter").value
    low, high = (preload_n(t, size) for t in (stack.torque.low_nm, stack.torque.high_nm))
    return Preload(low * (1.0 - scatter), low, high, high * (1.0 + scatter))


def ring_mm2(od_mm: float, id_mm: float, chamfer_mm: float = 0.0) -> float:
    """Area of a ring's end face, less a chamfer at both its edges, mm².

    >>> round(ring_mm2(12.7, 6.5), 2)
    93.49
    """
    outer, inner = od_mm - 2.0 * chamfer_mm, id_mm + 2.0 * chamfer_mm
    return pi / 4.0 * (outer * outer - inner * inner)


def opening_moment_nmm(pull_n: float, od_mm: float, id_mm: float) -> float:
    """Bending that opens the edge of a spacer which a bolt presses with `pull_n`, N·mm.

    Where the bending stress at the rim, M (Do/2)/I, takes away the pressure F/A: M = F (Do² + Di²)/(8 Do).

    >>> round(opening_moment_nmm(1000.0, 12.0, 6.0), 1)
    1875.0
    """
    return pull_n * (od_mm**2 + id_mm**2) / (8.0 * od_mm)


def tensile_area_mm2(bolt_name: str) -> float:
    """Tensile area of a bolt's thread, mm²: 0.7854 (d − 0.9743 p)², as for unified threads.

    >>> round(tensile_area_mm2("AN3"), 2)
    12.9
    """
    size = bolt(bolt_name)
    return pi / 4.0 * (size.nominal_mm - 0.9743 * size.pitch_mm) ** 2


def bolt_stiffness(stack: Stack) -> float:
    """Stiffness of a bolt over its stack, N/mm: A_d A_t E/(A_d l_t + A_t l_d) (Shigley, 8-5).

    The shank counts up to the stack's end; a bolt that is not chosen counts as threaded all along.
    """
    size = bolt(stack.bolt)
    grip = stack.chosen.length.grip_mm if stack.chosen is not None else 0.0
    shank = min(grip, stack.thickness_mm)
    thread = stack.thickness_mm - shank
    shank_area, thread_area = pi / 4.0 * size.nominal_mm**2, tensile_area_mm2(stack.bolt)
    return bolt_elastic() / (shank / shank_area + thread / thread_area)


def bolt_elastic() -> float:
    """Modulus of bolt steel, MPa."""
    steel = pressed("bolt steel")
    assert steel is not None
    return steel.elastic_mpa


def gain_n(
    expansion_per_k: float, length_mm: float, warmer_k: float, bolt_n_mm: float, spacer_n_mm: float
) -> float:
    """Pull that a spacer adds to its bolt when both grow warmer, N.

    ΔF = (α_s − α_b) L ΔT/(1/k_b + 1/k_s), `expansion_per_k` being α_s − α_b.

    >>> round(gain_n(11.5e-6, 40.0, 80.0, 140.8e3, 159.6e3))
    2753
    """
    return expansion_per_k * length_mm * warmer_k / (1.0 / bolt_n_mm + 1.0 / spacer_n_mm)
