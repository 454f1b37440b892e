package org.trebleproof.bench.hum;

import java.util.List;

/**
 * What a hum check cannot know, said wherever its result is shown.
 *
 * <p>General practice behind it: IEC 60364-4-41 and NFPA 70 article 250 on protective earth; trip
 * currents of residual-current devices from memory.
 */
public final class SafetyNote {

  private SafetyNote() {}

  /** The one sentence for a terminal. */
  public static String brief() {
    return "This check says nothing about electrical safety. A tingle from strings or plug is a"
        + " fault: stop, unplug, and have outlet and amplifier tested. Never lift protective earth.";
  }

  /** All of it, sentence by sentence. */
  public static List<String> full() {
    return List.of(
        "This check says nothing about electrical safety: hum that falls when the strings are"
            + " touched is a usual sign of shielding, not proof of a sound earth.",
        "A tingle from strings or plug is a fault. Stop, unplug, and have the outlet and the"
            + " amplifier tested; use an outlet behind a residual-current device (30 mA) or a ground-fault"
            + " interrupter (about 5 mA).",
        "Work on the instrument's side only, with the lead pulled out of everything.",
        "Valve amplifiers hold hundreds of volts in their capacitors after unplugging, enough to"
            + " kill: leave the inside to a licensed or otherwise qualified person.",
        "Never lift, cut or bypass the protective earth to be rid of a hum. Mains work is licensed"
            + " work: local codes apply.");
  }
}
