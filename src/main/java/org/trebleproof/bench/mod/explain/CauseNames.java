package org.trebleproof.bench.mod.explain;

import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.LeadName;
import org.trebleproof.bench.job.Slot;

/** What the things that take treble are called. */
public final class CauseNames {

  static final String SECOND_PICKUP = "second pickup and its controls";
  static final String TURNED_DOWN = "controls not full up";

  /** No cause: nobody exchanges it for the sake of the treble. */
  private static final String COIL = "pickup";

  private CauseNames() {}

  /** The cause that a part belongs to, by the name that it has in an explanation. */
  public static String cause(Slot slot) {
    return switch (slot) {
      case TONE, TONE_CAPACITOR -> "tone circuit";
      case BLEED_CAPACITOR, BLEED_RESISTOR -> Slot.VOLUME.noun();
      case BASS_CAPACITOR, BASS_POT -> "bass cut";
      case INPUT, INPUT_CAPACITANCE -> "amplifier or recorder input";
      case SECOND_VOLUME, SECOND_TONE, SECOND_TONE_CAPACITOR -> SECOND_PICKUP;
      case TAP_RESISTOR -> COIL;
      case CABLE -> "lead";
      default -> slot.noun();
    };
  }

  /** The cause that a pickup stands for, by its place in the layout. */
  public static String cause(int pickup) {
    return pickup == 0 ? COIL : SECOND_PICKUP;
  }

  /** The lead of a wiring. */
  static String lead(Layout layout) {
    return layout.part(Slot.CABLE).flatMap(LeadName::of).orElse(cause(Slot.CABLE));
  }
}
