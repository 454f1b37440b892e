package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One state of a guitar with one pickup, and what is plugged into it. Values are named parameters;
 * what is absent is absent.
 *
 * @param volume volume pot
 * @param tone tone control
 * @param toneAfterVolume whether the tone control hangs on the volume pot's wiper (the jack), not
 *     on the pickup's hot end
 * @param cable cable capacitance
 * @param inputResistance of the amplifier or recorder
 * @param inputCapacitance of the amplifier or recorder
 * @param across parts clipped across the jack
 * @param seriesDrive resistor between an ideal source and the jack
 */
public record GuitarWiring(
    Optional<Volume> volume,
    Optional<Tone> tone,
    boolean toneAfterVolume,
    Optional<String> cable,
    Optional<String> inputResistance,
    Optional<String> inputCapacitance,
    List<Clipped> across,
    Optional<String> seriesDrive) {

  private static final int PICKUP = 1;

  public GuitarWiring {
    across = List.copyOf(across);
  }

  /** Nothing connected: build on it with the methods that follow. */
  public static GuitarWiring bare() {
    return new GuitarWiring(
        Optional.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        Optional.empty());
  }

  /**
   * A volume pot, wired as a voltage divider.
   *
   * @param pot parameter [ohm]
   * @param wiper share of the resistance below the wiper, above 0 and up to 1 (full up)
   * @param odds parameter of the wiper's place where that is to be fitted; else it is exact
   * @param end parameter of what is left between lug and wiper at full up [ohm]; empty for nothing
   */
  public record Volume(String pot, double wiper, Optional<String> odds, Optional<String> end) {
    /** A wiper whose place is known exactly, and which goes all the way up. */
    public Volume(String pot, double wiper) {
      this(pot, wiper, Optional.empty(), Optional.empty());
    }

    public Volume {
      if (!(wiper > 0 && wiper <= 1)) {
        throw new IllegalArgumentException(
            "a volume pot's wiper share is above 0 (where the jack is shorted) and up to 1: "
                + wiper);
      }
    }
  }

  /**
   * A tone pot, wired as a variable resistor, in series with the tone capacitor.
   *
   * @param pot parameter [ohm]
   * @param share of the resistance in circuit, 0 (off) to 1 (full up)
   * @param capacitor parameter [F]
   * @param odds parameter of the wiper's place where that is to be fitted; else it is exact
   */
  public record Tone(String pot, double share, String capacitor, Optional<String> odds) {
    /** A pot whose place is known exactly. */
    public Tone(String pot, double share, String capacitor) {
      this(pot, share, capacitor, Optional.empty());
    }

    public Tone {
      if (!(share >= 0 && share <= 1)) {
        throw new IllegalArgumentException("a tone pot's share is 0 to 1: " + share);
      }
    }
  }

  /**
   * A part clipped across the jack.
   *
   * @param kind what it is
   * @param parameter its value [F or ohm]
   */
  public record Clipped(Kind kind, String parameter) {
    /** What a clipped part is. */
    public enum Kind {
      CAPACITOR,
      RESISTOR
    }
  }

  /** With a volume pot. */
  public GuitarWiring withVolume(String pot, double wiper) {
    return new GuitarWiring(
        Optional.of(new Volume(pot, wiper)),
        tone,
        toneAfterVolume,
        cable,
        inputResistance,
        inputCapacitance,
        across,
        seriesDrive);
  }

  /** With a tone control. */
  public GuitarWiring withTone(String pot, double share, String capacitor, boolean afterVolume) {
    return new GuitarWiring(
        volume,
        Optional.of(new Tone(pot, share, capacitor)),
        afterVolume,
        cable,
        inputResistance,
        inputCapacitance,
        across,
        seriesDrive);
  }

  /** With a cable. */
  public GuitarWiring withCable(String capacitance) {
    return new GuitarWiring(
        volume,
        tone,
        toneAfterVolume,
        Optional.of(capacitance),
        inputResistance,
        inputCapacitance,
        across,
        seriesDrive);
  }

  /** With an amplifier or a recorder. */
  public GuitarWiring withInput(String resistance, String capacitance) {
    return new GuitarWiring(
        volume,
        tone,
        toneAfterVolume,
        cable,
        Optional.of(resistance),
        Optional.of(capacitance),
        across,
        seriesDrive);
  }

  /** With one more part across the jack. */
  public GuitarWiring withAcross(Clipped.Kind kind, String parameter) {
    List<Clipped> more = new ArrayList<>(across);
    more.add(new Clipped(kind, parameter));
    return new GuitarWiring(
        volume, tone, toneAfterVolume, cable, inputResistance, inputCapacitance, more, seriesDrive);
  }

  /** With a source behind a resistor at the jack. */
  public GuitarWiring withSeriesDrive(String resistance) {
    return new GuitarWiring(
        volume,
        tone,
        toneAfterVolume,
        cable,
        inputResistance,
        inputCapacitance,
        across,
        Optional.of(resistance));
  }

  /**
   * The whole circuit. With the volume full up, the jack is the pickup's hot end and no control
   * costs a node.
   *
   * @param coil model of the pickup
   * @param prefix the pickup's name
   */
  public Circuit circuit(CoilModel coil, String prefix) {
    int jack = jack();
    List<Element> elements = new ArrayList<>(coil.elements(prefix, PICKUP, jack + 1));
    addLoad(elements);
    return new Circuit(elements, jack, PICKUP);
  }

  /**
   * Everything outside the pickup. Probe it as seen from the pickup's hot end.
   *
   * @throws IllegalArgumentException when nothing is connected
   */
  public Circuit load() {
    List<Element> elements = new ArrayList<>();
    addLoad(elements);
    return new Circuit(elements, jack(), PICKUP);
  }

  private int jack() {
    return volume.isPresent() && volume.get().wiper() < 1 ? PICKUP + 1 : PICKUP;
  }

  private void addLoad(List<Element> elements) {
    int jack = jack();
    volume.ifPresent(
        pot -> {
          elements.add(new Element.Resistor(0, jack, pot.pot(), pot.wiper()));
          if (jack != PICKUP) {
            elements.add(new Element.Resistor(jack, PICKUP, pot.pot(), 1 - pot.wiper()));
          }
        });
    tone.ifPresent(
        branch -> {
          int at = toneAfterVolume ? jack : PICKUP;
          elements.add(
              branch.share() > 0
                  ? new Element.ResistorCapacitor(
                      0, at, branch.pot(), branch.share(), branch.capacitor())
                  : new Element.Capacitor(0, at, branch.capacitor()));
        });
    cable.ifPresent(c -> elements.add(new Element.Capacitor(0, jack, c)));
    inputResistance.ifPresent(r -> elements.add(new Element.Resistor(0, jack, r)));
    inputCapacitance.ifPresent(c -> elements.add(new Element.Capacitor(0, jack, c)));
    for (Clipped part : across) {
      elements.add(
          part.kind() == Clipped.Kind.CAPACITOR
              ? new Element.Capacitor(0, jack, part.parameter())
              : new Element.Resistor(0, jack, part.parameter()));
    }
    seriesDrive.ifPresent(r -> elements.add(new Element.SeriesDrive(jack, r)));
  }
}
