"""Coil, guitar and recorder of a real bench in closed form: NumPy and SciPy only, nothing of the product.

Angular frequencies are arrays that do not hold zero. SI units.

Sources of the forms:
- rod core: solid conducting cylinder in a longitudinal field, 2 J1(ka) / (ka J0(ka)); J. Lammeraner, M. Stafl, Eddy
  Currents, 1966 (from memory). With (ka)^2 = -j w tau it is 2 I1(z) / (z I0(z)), z = sqrt(j w tau), tau = a^2 mu sigma.
- Cole-Cole core: K. S. Cole, R. H. Cole, J. Chem. Phys. 9 (1941) 341 (from memory): 1 / (1 + (j w tau)^a). Here for what a
  bundle of rods of several sizes, or a rod of finite length, does; that it fits them is common practice, no source.
- cover or base plate: a coupled shorted turn, Z = jwL + w^2 k^2 L L2 / (R2 + jwL2); transformer theory (reflected impedance).
- dielectric loss: constant phase, C (jw/w0)^-n; A. K. Jonscher, Nature 267 (1977) 673 (from memory).
- level: B1 = (mu + nu H) H - j (4 / 3 pi) nu H^2, third harmonic (4 / 15 pi) nu H^2: Rayleigh's law of weak fields; Lord
  Rayleigh, Phil. Mag. 23 (1887) 225 (from memory).
"""
from dataclasses import dataclass

import numpy as np
from scipy.special import ive

DIELECTRIC_AT = 2 * np.pi * 4000.0      # where a winding's capacitance is quoted
RAYLEIGH_LOSS = 4 / (3 * np.pi)
RAYLEIGH_THIRD = 4 / (15 * np.pi)


def cylinder(w, tau):
    """Flux in a solid conducting cylinder over that without eddy currents."""
    z = np.sqrt(1j * np.asarray(w, float) * tau)
    return 2 * ive(1, z) / (z * ive(0, z))


@dataclass(frozen=True)
class Metal:
    """Inductance of one coil over that at low frequency: each share of it falls with its own form."""
    rods: tuple = ()            # (share, tau)
    turns: tuple = ()           # shorted turns: (k^2, tau)
    cole: tuple = ()            # (share, tau, exponent)

    def factor(self, w):
        w = np.asarray(w, float)
        f = np.ones(w.shape, complex)
        for share, tau in self.rods:
            f += share * (cylinder(w, tau) - 1)
        for share, tau in self.turns:
            f -= share * 1j * w * tau / (1 + 1j * w * tau)
        for share, tau, exponent in self.cole:
            f += share * (1 / (1 + (1j * w * tau) ** exponent) - 1)
        return f


@dataclass(frozen=True)
class Winding:
    L: float
    R: float
    C: float
    metal: Metal = Metal()
    loss: float = 0.0           # tangent of the winding's dielectric loss

    def branch(self, w, warm=1.0, growth=0.0):
        """Wire and inductance; `growth` is that of the inductance with level."""
        return self.R * warm + 1j * w * self.L * self.metal.factor(w) * (1 + growth * (1 - 1j * RAYLEIGH_LOSS))

    def own(self, w):
        """Admittance of the winding's capacitance."""
        n = 2 / np.pi * np.arctan(self.loss)
        return 1j * w * self.C * (1j * w / DIELECTRIC_AT) ** -n


@dataclass(frozen=True)
class Coil:
    """One winding, or two in series that share flux. Seen as impedance and open-circuit voltage per induced voltage."""
    windings: tuple
    coupling: float = 0.0       # M / sqrt(L1 L2)
    share: float = 0.5          # of the induced voltage in the first of two

    @property
    def inductance(self):
        if len(self.windings) == 1:
            return self.windings[0].L
        a, b = self.windings
        return a.L + b.L + 2 * self.coupling * np.sqrt(a.L * b.L)

    @property
    def resistance(self):
        return sum(x.R for x in self.windings)

    def seen(self, w, warm=1.0, growth=0.0):
        if len(self.windings) == 1:
            (c,) = self.windings
            z = c.branch(w, warm, growth)
            down = 1 + z * c.own(w)
            return z / down, 1 / down
        a, b = self.windings
        za, zb = a.branch(w, warm, growth), b.branch(w, warm, growth)
        # The mutual flux goes through the metal of both: the geometric mean of what each leaves.
        m = 1j * w * self.coupling * np.sqrt(a.L * b.L * a.metal.factor(w) * b.metal.factor(w)) * (1 + growth * (1 - 1j * RAYLEIGH_LOSS))
        ya, yb = a.own(w), b.own(w)
        # v = Zm (I - Y v) + e, so (1 + Zm Y) v = Zm (1, 1) I + e
        p, q, r, s = 1 + za * ya, m * yb, m * ya, 1 + zb * yb
        det = p * s - q * r

        def total(x, y):
            return (s * x - q * y + p * y - r * x) / det
        return total(za + m, zb + m), total(self.share, 1 - self.share)

    def capacitance(self, w):
        """Of one winding, at one frequency."""
        return float((self.windings[0].own(np.array([w])) / (1j * w)).real[0])


@dataclass(frozen=True)
class Input:
    """A recorder's input: capacitance at the socket; coupling capacitor ahead of the resistance, or corner behind the buffer."""
    R: float = 1e6
    C: float = 80e-12
    ahead: float = 0.0          # corner of coupling capacitor and R [Hz]
    behind: float = 0.0         # corner behind the buffer [Hz]

    def admittance(self, w):
        series = self.R * (1 + 2 * np.pi * self.ahead / (1j * w))
        return 1j * w * self.C + 1 / series

    def reads(self, w):
        """What is recorded, over the voltage at the socket."""
        return 1 / (1 + 2 * np.pi * self.ahead / (1j * w)) / (1 + 2 * np.pi * self.behind / (1j * w))


@dataclass(frozen=True)
class Guitar:
    """What is wired between coil and jack. With volume 0 there is no pot; the same for the rest."""
    volume: float = 0.0
    wiper: float = 1.0          # share of the track below the wiper
    end: float = 0.0            # of the track's end, between track and wiper when full up
    tone: float = 0.0
    toneCapacitor: float = 0.0
    bleedCapacitor: float = 0.0
    bleedResistor: float = 0.0  # parallel to the bleed capacitor
    cable: float = 0.0

    def before(self, w):
        """Admittance at the coil, ahead of the volume pot."""
        if not self.tone:
            return np.zeros(len(w), complex)
        return 1 / (self.tone + 1 / (1j * w * self.toneCapacitor))

    def through(self, w):
        """Impedance from the coil to the jack."""
        top = self.end + self.volume * (1 - self.wiper)
        bleed = 1j * w * self.bleedCapacitor + (1 / self.bleedResistor if self.bleedResistor else 0)
        return top / (1 + top * bleed)

    def at_jack(self, w, outside):
        y = outside + 1j * w * self.cable
        return y + 1 / (self.volume * self.wiper) if self.volume else y

    def load(self, w, outside):
        """Admittance seen by the coil, and jack over coil voltage. `outside` hangs at the jack."""
        jack = self.at_jack(w, outside)
        down = 1 + self.through(w) * jack
        return self.before(w) + jack / down, 1 / down

    def source(self, w, coil_impedance, outside):
        """Admittance at the jack with the coil behind it."""
        inside = 1 / (self.before(w) + 1 / coil_impedance)
        return self.at_jack(w, outside) + 1 / (self.through(w) + inside)


@dataclass(frozen=True)
class Shelf:
    """How much of the exciter's field passes the metal between it and the string's place, over frequency."""
    share: float = 0.0
    tau: float = 0.0
    cylinder: bool = False

    def factor(self, w):
        if not self.share:
            return np.ones(len(w), complex)
        if self.cylinder:
            return 1 + self.share * (cylinder(w, self.tau) - 1)
        return 1 - self.share * 1j * w * self.tau / (1 + 1j * w * self.tau)


def transfer(coil, guitar, w, outside, warm=1.0, growth=0.0):
    """Jack voltage over induced voltage."""
    z, e = coil.seen(w, warm, growth)
    y, down = guitar.load(w, outside)
    return e / (1 + z * y) * down


def exciter_response(coil, guitar, w, outside, shelf, gain, warm=1.0, growth=0.0):
    """Jack voltage over the exciter's current; `gain` is that at 1 kHz with nothing in the way."""
    emf = gain * 1j * w / (2 * np.pi * 1000) * shelf.factor(w) * (1 + growth * (1 - 1j * RAYLEIGH_LOSS))
    return emf * transfer(coil, guitar, w, outside, warm, growth)


def series_response(coil, guitar, w, outside, resistor, stray=0.0, warm=1.0, growth=0.0):
    """Voltage at the jack over that at the driven end of the resistor."""
    z, _ = coil.seen(w, warm, growth)
    feed = 1 / resistor + 1j * w * stray
    return feed / (feed + guitar.source(w, z, outside))
