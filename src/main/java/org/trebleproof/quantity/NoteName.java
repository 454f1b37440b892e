package org.trebleproof.quantity;

import java.util.List;
import java.util.Locale;

/** Names of notes in equal temperament, A4 = 440 Hz (ISO 16:1975), as guitarists write them. */
public final class NoteName {

  private static final List<String> NAMES =
      List.of("C", "C♯", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B");

  private static final int A4 = 69;

  private NoteName() {}

  /** The nearest note, such as {@code E2}. */
  public static String of(double hz) {
    long nearest = Math.round(semitones(hz));
    return NAMES.get((int) Math.floorMod(nearest, 12L)) + (Math.floorDiv(nearest, 12L) - 1);
  }

  /** How far above the nearest note, such as {@code −3 cent}. */
  public static String cent(double hz) {
    double semitones = semitones(hz);
    long cent = Math.round(100 * (semitones - Math.round(semitones)));
    String sign = cent > 0 ? "+" : cent < 0 ? "−" : "";
    return String.format(Locale.ROOT, "%s%d cent", sign, Math.abs(cent));
  }

  private static double semitones(double hz) {
    return 12 * Math.log(hz / 440) / Math.log(2) + A4;
  }
}
