package org.trebleproof.signal.hum;

/**
 * A sound that no guitar makes in silence.
 *
 * @param kind what it is like
 * @param meanSquare of the samples where it is heard
 * @param hz its frequency where it is a tone [Hz]; else 0
 */
public record ForeignSound(Kind kind, double meanSquare, double hz) {

  /** What it is like. */
  public enum Kind {
    /** A tone that passes through the whole range. */
    SWEEP,
    /** What comes and goes: playing, speech, clicks. */
    CHANGING,
    /** A tone, or several, that stands still and is no harmonic of the mains. */
    TONE,
    /** A single line on the mains' place without a trace of the harmonics that mains has. */
    PURE_TONE,
    /** A noise louder, or lower in pitch, than any input hisses. */
    NOISE
  }
}
