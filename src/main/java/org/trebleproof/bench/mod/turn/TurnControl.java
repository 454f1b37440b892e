package org.trebleproof.bench.mod.turn;

import java.util.List;

/**
 * Something that can be turned or exchanged.
 *
 * @param key short name, unique
 * @param label what a sentence calls it
 * @param kind how it is moved
 * @param stops what it can stand at, in order; empty for a knob
 */
public record TurnControl(String key, String label, Kind kind, List<Stop> stops) {

  /** The wiring as a whole. */
  public static final String WIRING = "wiring";

  /** The treble bleed. */
  public static final String BLEED = "bleed";

  /** Behind a pot's key: where it stands, 0 to 1. */
  public static final String ROTATION = "Rotation";

  /** Behind a pot's key: its share at half rotation. */
  public static final String CENTRE = "Centre";

  /** How a control is moved. */
  public enum Kind {
    /** A knob without stops. */
    TURN,
    /** Values in order, from one to the next. */
    STOPS,
    /** A few of which one is picked. */
    CHOICE
  }

  public TurnControl {
    stops = List.copyOf(stops);
  }
}
