#!/usr/bin/env python3
"""Couple and energy of barrelled strips by brute force, for a test.

Written from the definition alone: every element carries the same couple M
until the wall or the arbor stops it, kappa = clamp(kappa0 + M/EI, kw, ka);
turns are counted from rest (M = 0). SciPy integrates and finds the root; no
closed form is used. Prints CSV; run it as

    python3 spring_reference.py > spring_reference.csv

Made with SciPy 1.10.1. Set: S. Timoshenko, Strength of Materials.
"""
from math import pi, sqrt
from scipy.integrate import quad
from scipy.optimize import brentq

E, NU = 206e9, 0.3
# name, width, thickness, length, arbor radius, inside radius, form, value (SI)
SPRINGS = [
    ("straight", 0.036, 0.00038, 1.65, 0.0075, 0.0225, "straight", 0.0),
    ("coils", 0.036, 0.00038, 1.65, 0.0075, 0.0225, "coils", 7.5),
    ("set", 0.036, 0.00038, 1.65, 0.0075, 0.0225, "set", 1620e6),
    ("set, partly elastic", 0.012, 0.00018, 1.10, 0.0050, 0.0125, "set", 1900e6),
    ("set, barrel nearly full", 0.036, 0.00038, 2.90, 0.0075, 0.0225, "set", 1620e6),
    ("set, turret clock", 0.080, 0.0016, 4.0, 0.022, 0.070, "set", 1400e6),
]


def make(w, h, L, r, R, form, value):
    ei = E * w * h**3 / 12
    ky = 2 * value / (E * h)

    def ka(s):
        return 1 / sqrt(r * r + h * s / pi)

    def kw(s):
        return 1 / sqrt(R * R - h * (L - s) / pi)

    def k0(s):
        if form == "coils":
            return 2 * pi * value / L
        if form == "set" and ka(s) > ky:
            return ka(s) - 1.5 * ky * (1 - (ky / ka(s)) ** 2 / 3)
        return 0.0

    def kappa(M, s):
        return min(max(k0(s) + M / ei, kw(s)), ka(s))

    def integral(f):
        n = 400  # panels: kinks move with M, so many small ones rather than clever ones
        return sum(quad(f, L * i / n, L * (i + 1) / n, limit=100, epsabs=0, epsrel=1e-11)[0] for i in range(n))

    def turns(M):
        return integral(lambda s: kappa(M, s) - kappa(0.0, s)) / (2 * pi)

    def energy(M):
        u = lambda s, m: 0.5 * ei * (kappa(m, s) - k0(s)) ** 2
        return integral(lambda s: u(s, M) - u(s, 0.0))

    home = ei * (ka(0) - k0(0))
    return turns, energy, home, ei


print("spring,width_m,thickness_m,length_m,arbor_m,inside_m,form,value,couple_nm,turns,energy_j")
for name, w, h, L, r, R, form, value in SPRINGS:
    turns, energy, home, ei = make(w, h, L, r, R, form, value)
    for share in (0.3, 0.5, 0.7, 0.85, 0.95, 0.99):
        M = share * home
        print(f'"{name}",{w},{h},{L},{r},{R},{form},{value},{M:.12e},{turns(M):.12e},{energy(M):.12e}')
