"""What the best estimator could know: half-widths of the rows of a simulated job for one that knows the true form of everything.

Fisher's information of the recordings at the truth plus the priors of the job file, inverted (Cramer-Rao bound; S. M. Kay,
Fundamentals of Statistical Signal Processing, 1993, from memory). The sweep's spectrum is a^2 rate / 4f (Novak, Lotton,
Simon, J. Audio Eng. Soc. 63(10), 2015, equation 42), so every step of log f counts alike but for the noise. Not counted:
hum, ripple, and an inductance that grows with level.
"""
import copy
from dataclasses import replace

import numpy as np

SD95 = 1.96
FREE = np.inf
GRID = np.geomspace(20, 20000, 240)


class Unknown:
    """A quantity by which the truth is moved: `move(bench, x)` for small x; `sd` of its prior, in the same measure."""

    def __init__(self, name, sd, move, step=1e-3):
        self.name, self.sd, self.move, self.step = name, sd, move, step


def winding(n, **change):
    def move(b, x):
        ws = list(b.coil.windings)
        ws[n] = replace(ws[n], **{k: f(getattr(ws[n], k), x) for k, f in change.items()})
        b.coil = replace(b.coil, windings=tuple(ws))
    return move


def by_factor(v, x):
    return v * np.exp(x)


def by_sum(v, x):
    return v + x


def metal(n, kind, which, place):
    def move(b, x):
        m = b.coil.windings[n].metal
        pieces = [list(p) for p in getattr(m, kind)]
        pieces[which][place] *= np.exp(x)
        winding(n, metal=lambda old, _: replace(old, **{kind: tuple(map(tuple, pieces))}))(b, x)
    return move


def attribute(name, how):
    def move(b, x):
        setattr(b, name, how(getattr(b, name), x))
    return move


def both_inputs(name):
    def move(b, x):
        b.input = replace(b.input, **{name: getattr(b.input, name) * np.exp(x)})
        b.reference_input = replace(b.reference_input, **{name: getattr(b.reference_input, name) * np.exp(x)})
    return move


def input_of_device(name):
    def move(b, x):
        b.input = replace(b.input, **{name: getattr(b.input, name) * np.exp(x)})
    return move


def part(name):
    def move(b, x):
        said, true = b.parts[name]
        b.parts[name] = (said, true * np.exp(x))
        for s in b.setups.values():
            fields = {k: v * np.exp(x) for k, v in vars(s.guitar).items() if v == true}
            s.guitar = replace(s.guitar, **fields)
    return move


def setup(names, field, how):
    def move(b, x):
        for name in names:
            setattr(b.setups[name], field, how(getattr(b.setups[name], field), x))
    return move


def shelf(names, field):
    def move(b, x):
        for name in names:
            s = b.setups[name]
            s.shelf = replace(s.shelf, **{field: getattr(s.shelf, field) * np.exp(x)})
    return move


def guitar(name, field, how):
    def move(b, x):
        s = b.setups[name]
        s.guitar = replace(s.guitar, **{field: how(getattr(s.guitar, field), x)})
    return move


def copied(b):
    c = copy.copy(b)
    c.setups = {k: copy.copy(s) for k, s in b.setups.items()}
    c.parts = dict(b.parts)
    return c


def stated(text, usual=None):
    """Tolerance of a marking."""
    words = text.split()
    return float(words[1].rstrip("%")) / 100 if len(words) > 1 else usual


def unknowns(b, usual):
    u = []
    for n, w in enumerate(b.coil.windings):
        u += [Unknown(f"L{n}", FREE, winding(n, L=by_factor)), Unknown(f"R{n}", FREE, winding(n, R=by_factor)),
              Unknown(f"C{n}", 0.6, winding(n, C=by_factor)), Unknown(f"loss{n}", 0.03, winding(n, loss=by_sum), 1e-5)]
        for kind in ("rods", "turns", "cole"):
            for k, piece in enumerate(getattr(w.metal, kind)):
                for place, value in enumerate(piece):
                    if not (kind == "turns" and place == 0 and value == 1.0):       # a loss resistor
                        u.append(Unknown(f"{kind}{n}{k}{place}", 2.0, metal(n, kind, k, place)))
    if len(b.coil.windings) == 2:
        u.append(Unknown("coupling", FREE, lambda b, x: setattr(b, "coil", replace(b.coil, coupling=b.coil.coupling + x))))
        u.append(Unknown("division", 0.1 / SD95, lambda b, x: setattr(b, "coil", replace(b.coil, share=b.coil.share + x))))
    for name, (said, _) in b.parts.items():
        tolerance = stated(said.get("value") or said["capacitance"], usual[said["kind"]])
        u.append(Unknown(name, tolerance / SD95, part(name)))
    u.append(Unknown("input R", 0.01 / SD95, input_of_device("R")))
    u.append(Unknown("input C", 0.03 / SD95, input_of_device("C")))
    for corner in ("ahead", "behind"):
        if getattr(b.input, corner):
            u += [Unknown(corner, 1.5, both_inputs(corner)), Unknown(corner + " ratio", 0.05, input_of_device(corner))]
    if b.series:
        u += [Unknown("resistor", 0.001 / SD95, attribute("resistor", by_factor)), Unknown("ratio", 0.0005 / SD95, attribute("ratio", by_factor)),
              Unknown("delay", 0.02e-6 / SD95, attribute("delay", by_sum), 1e-10)]
        if b.stray:
            u.append(Unknown("stray", 0.2e-12, attribute("stray", by_sum), 1e-16))
    else:
        u.append(Unknown("delay", 2e-6 / SD95, attribute("delay", by_sum), 1e-10))
    if b.leak:
        u.append(Unknown("leak", 1e-3, attribute("leak", by_sum), 1e-7))
    if b.leak_per_hz:
        u.append(Unknown("leak per Hz", 1e-6, attribute("leak_per_hz", by_sum), 1e-11))
    names = list(b.setups)
    for k, name in enumerate(names):
        s = b.setups[name]
        if k and s.warm != 1:
            u.append(Unknown(f"{name} warm", 0.01, setup([name], "warm", by_factor)))
        if s.guitar.end:
            u.append(Unknown(f"{name} end", 1.0, guitar(name, "end", by_factor)))
        if s.guitar.wiper != 1:
            u.append(Unknown(f"{name} wiper", 0.05 / SD95, guitar(name, "wiper", by_sum)))
        if not b.series:
            u.append(Unknown(f"{name} gain", 0.003 / SD95 if k and b.coil_fixed else FREE,
                             setup(names[k:] if b.coil_fixed and not k else [name], "gain", by_factor)))
    if not b.series:
        apart = len({s.shelf.share for s in b.setups.values()}) > 1
        for which in ([[n] for n in names] if apart else [names]):
            u.append(Unknown(f"shelf of {which[0]}", 1.5, shelf(which, "share")))
        u.append(Unknown("shelf time", 1.5, shelf(names, "tau")))
    return u


def weights(b, take, reference, device, w):
    """Square roots of the information per point of the grid; see the head of the file."""
    rate = take.seconds / np.log(take.end / take.start)
    hz = w / 2 / np.pi

    def density(noise):
        """Two-sided, per Hz."""
        power = (10 ** (b.floor / 20)) ** 2 / 2 / 48000 * np.ones(len(hz))
        if noise:
            shape = hz ** -noise[1]
            band = np.linspace(20, 20000, 20001)
            power = power + (10 ** (noise[0] / 20)) ** 2 / 2 / (2 * np.trapz(band ** -noise[1], band)) * shape
        return power
    power = density(b.noise) + np.abs(device / reference) ** 2 * density((b.noise[0] - 15, b.noise[1]) if b.noise else ())
    energy = take.repeats * (10 ** (b.level / 20) * np.abs(reference)) ** 2 * rate / 4 * np.log(GRID[-1] / GRID[0]) / (len(GRID) - 1)
    return np.sqrt(2 * energy / power) * (hz >= take.start)


def half_widths(b, measured, rows, readings, usual):
    """Half-widths of 95 % intervals, by row.

    measured(b, capture, w) gives reference and device channel over what is played, rows(b) the values of all rows, readings(b) the
    logarithms of what meters should show and their relative standard deviations.
    """
    w = 2 * np.pi * GRID
    u = unknowns(b, usual)
    scale = [(weights(b, b.take, *measured(b, c, w), w) * 10 ** (c.decibel / 20)) for c in b.captures]

    def seen(x):
        pairs = [measured(x, c, w) for c in b.captures]
        data = np.concatenate([d / r * s for (r, d), s in zip(pairs, scale)])
        logs, sds = readings(x)
        return np.concatenate([data.real, data.imag, np.array(logs) / np.array(sds)])

    def values(x):
        found = rows(x)
        return np.array([found.get(k, np.nan) for k in keys])
    keys = list(rows(b))
    slopes, gradients = [], []
    for q in u:
        a, c = copied(b), copied(b)
        q.move(a, q.step)
        q.move(c, -q.step)
        slopes.append((seen(a) - seen(c)) / (2 * q.step))
        gradients.append((values(a) - values(c)) / (2 * q.step))
    slopes, gradients = np.array(slopes), np.array(gradients)
    information = slopes @ slopes.T + np.diag([0 if q.sd == FREE else q.sd ** -2 for q in u])
    size = 1 / np.sqrt(np.maximum(np.diag(information), 1e-300))
    covariance = np.linalg.pinv(information * np.outer(size, size), rcond=1e-14, hermitian=True) * np.outer(size, size)
    variance = np.einsum("ik,ij,jk->k", gradients, covariance, gradients)
    return {k: SD95 * float(np.sqrt(v)) for k, v in zip(keys, variance) if np.isfinite(v) and v >= 0}
