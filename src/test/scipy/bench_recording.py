"""Sweeps, noise and files of a simulated recorder.

The sweep is the exponential one of A. Farina, 108th AES Convention, 2000, preprint 5093, section 4, with raised-cosine fades
of 20 ms, as the product's guide documents it.
"""
from dataclasses import dataclass

import numpy as np
import soundfile
from scipy import fft

RATE = 48000
FADE = 0.02


@dataclass(frozen=True)
class Take:
    """What is played: `before` and `after` are silence [s]."""
    seconds: float = 5.0
    repeats: int = 3
    gap: float = 1.0
    start: float = 20.0
    end: float = 20000.0
    before: float = 1.0
    after: float = 1.0

    @property
    def period(self):
        return int(round((self.seconds + self.gap) * RATE))

    @property
    def length(self):
        return int(round((self.before + self.after) * RATE)) + self.repeats * self.period

    def sweep(self):
        """Samples of one sweep, its phase, and its frequency."""
        n = int(round(self.seconds * RATE))
        t = np.arange(n) / RATE
        rate = self.seconds / np.log(self.end / self.start)
        phase = 2 * np.pi * self.start * rate * np.expm1(t / rate)
        fade = int(FADE * RATE)
        window = np.ones(n)
        ramp = 0.5 - 0.5 * np.cos(np.pi * np.arange(fade) / fade)
        window[:fade], window[-fade:] = ramp, ramp[::-1]
        return window, phase, self.start * np.exp(t / rate)

    def places(self):
        first = int(round(self.before * RATE))
        return [first + k * self.period for k in range(self.repeats)]

    def played(self, one):
        x = np.zeros(self.length)
        for place in self.places():
            x[place:place + len(one)] += one
        return x


def grid(take):
    """Angular frequencies of the transform of a take and a silence for what rings on; without zero."""
    size = fft.next_fast_len(take.length + 2 * RATE, real=True)
    return 2 * np.pi * fft.rfftfreq(size, 1 / RATE)[1:], size


def filtered(x, response, size):
    spectrum = fft.rfft(x, size)
    spectrum[0] = 0
    spectrum[1:] *= response
    return fft.irfft(spectrum, size)[:len(x)]


def level(dbfs):
    """Effective value; 0 dBFS is a sine that reaches full scale (AES17)."""
    return 10 ** (dbfs / 20) / np.sqrt(2)


def pink(rng, n, dbfs, exponent):
    """Noise whose power goes as 1 / f^exponent; `dbfs` is its level from 20 Hz to 20 kHz. Flicker noise of amplifier stages has
    exponents near 1 (data sheets show a 1/f corner); it is kept from growing below 1 Hz."""
    size = fft.next_fast_len(n, real=True)
    hz = fft.rfftfreq(size, 1 / RATE)
    shape = np.maximum(hz, 1.0) ** (-exponent / 2)
    band = (hz >= 20) & (hz <= 20000)
    power = 2 * np.sum(shape[band] ** 2) / size           # of unit white noise through the shape
    x = fft.irfft(fft.rfft(rng.standard_normal(size)) * shape, size)[:n]
    return x * level(dbfs) / np.sqrt(power)


def hum(rng, n, dbfs, mains=50.0):
    """Mains hum, fundamental and 14 harmonics; the mains is a little off and wanders (EN 50160 allows 1 %)."""
    t = np.arange(n) / RATE
    wander = rng.normal(0, 0.015)
    phase = 2 * np.pi * ((mains + rng.normal(0, 0.02)) * t + 0.05 * wander * np.sin(2 * np.pi * t / 11))
    x = np.zeros(n)
    for k in range(1, 16):
        x += k ** -1.2 * rng.uniform(0.3, 1) * np.cos(k * phase + rng.uniform(0, 2 * np.pi))
    return x * level(dbfs) / np.std(x)


def write(path, reference, device, rng, silence, floor):
    """Writes both channels, with silence before and after [s] that holds the converter's noise."""
    both = np.stack([reference, device], axis=1)
    peak = np.max(np.abs(both))
    assert peak < 0.99, f"{path} clips: {peak}"
    with soundfile.SoundFile(path, "w", RATE, 2, subtype="PCM_24") as file:
        quiet(file, rng, silence[0], floor)
        file.write(both)
        quiet(file, rng, silence[1], floor)


def quiet(file, rng, seconds, floor):
    left = int(seconds * RATE)
    while left > 0:
        n = min(left, 1 << 20)
        file.write(rng.standard_normal((n, 2)) * level(floor))
        left -= n
