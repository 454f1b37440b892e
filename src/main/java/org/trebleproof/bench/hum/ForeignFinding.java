package org.trebleproof.bench.hum;

import java.util.Locale;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.hum.ForeignSound;

/** What is said of a recording that is no silence. */
final class ForeignFinding {

  private ForeignFinding() {}

  /**
   * The finding.
   *
   * @param name of the recording and its state
   */
  static Finding of(String name, ForeignSound sound) {
    String level = String.format(Locale.ROOT, "%.0f dB", FullScale.level(sound.meanSquare()));
    String what =
        switch (sound.kind()) {
          case SWEEP -> "a tone passes through it from one end of the range to the other";
          case CHANGING -> "something in it comes and goes, " + level + " at its loudest";
          case TONE -> "a tone of about " + hertz(sound.hz()) + " stands in it at " + level;
          case PURE_TONE -> "a pure tone of " + hertz(sound.hz()) + " stands in it at " + level;
          case NOISE -> "a noise of " + level + " fills it";
        };
    String why =
        switch (sound.kind()) {
          case SWEEP -> "a test sweep does that, hum and hiss never";
          case CHANGING -> "playing, speech and clicks do that; hum and hiss stand still";
          case TONE -> "mains hum has no line there; a ringing string or a test tone has";
          case PURE_TONE -> "mains hum always has overtones, and this has none";
          case NOISE ->
              "that is louder, or lower in pitch, than an input hisses; a loudspeaker, a fan or a"
                  + " test noise is";
        };
    String next =
        switch (sound.kind()) {
          case NOISE ->
              "Switch off what makes it, or turn the gain down where it is the hiss of a very high"
                  + " one, and record ten seconds of nothing.";
          default ->
              "Stop whatever sounds, lay a cloth over the strings, and record ten seconds of"
                  + " nothing.";
        };
    return Finding.of(
        FindingCode.NO_SILENCE, name + " is no silence and was left out: " + what + ".", why, next);
  }

  private static String hertz(double hz) {
    return hz < 1000
        ? String.format(Locale.ROOT, "%.0f Hz", hz)
        : String.format(Locale.ROOT, "%.1f kHz", hz / 1000);
  }
}
