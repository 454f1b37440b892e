package org.trebleproof.circuit;

import java.util.List;
import java.util.Optional;

/**
 * The wiring harness of a guitar with one pickup or several, and what is plugged into it, as a
 * netlist of the same elements as everything else. Values are named parameters; what is absent is
 * absent.
 *
 * <p>A harness is one position of its selector switch: the branches it holds are the pickups that
 * this position lets through. The induced voltage is 1 in every pickup (times its output), so two
 * like pickups in parallel give the level of one and in series that of two.
 *
 * @param branches pickups with controls of their own, at least one
 * @param joint how several branches meet
 * @param master controls that follow the joint
 * @param output what is plugged in
 */
public record Harness(List<Branch> branches, Joint joint, Controls master, Output output) {

  public Harness {
    branches = List.copyOf(branches);
    if (branches.isEmpty()) {
      throw new IllegalArgumentException("a harness needs a pickup");
    }
  }

  /** How branches meet. */
  public enum Joint {
    /** Hot ends together, cold ends grounded. */
    PARALLEL,
    /** Each branch stands on the output of the one before. */
    SERIES
  }

  /**
   * A coil model in a place.
   *
   * @param name prefix of its parameters
   * @param coil its model
   * @param output induced voltage as a multiple of the first pickup's; negative when it is out of
   *     phase, 0 when nothing is induced in it
   * @param warmth parameter: by what factor the copper's resistance is higher than stated; empty
   *     where it is as stated
   */
  public record Source(String name, CoilModel coil, double output, Optional<String> warmth) {
    /** A coil at the temperature at which its resistance is stated. */
    public Source(String name, CoilModel coil, double output) {
      this(name, coil, output, Optional.empty());
    }

    public Source {
      if (!Double.isFinite(output)) {
        throw new IllegalArgumentException("a pickup's output is a number: " + output);
      }
    }
  }

  /**
   * One pickup and its own controls.
   *
   * @param coils in series from the cold end to the hot end: one, or the two coils of a pickup
   * @param tap connection of the junction of two coils to the cold end
   * @param controls between this pickup and the joint
   */
  public record Branch(List<Source> coils, Optional<Tap> tap, Controls controls) {
    public Branch {
      coils = List.copyOf(coils);
      boolean junction = coils.size() == 2 || coils.size() == 1 && innerNode(coils.get(0));
      if (coils.isEmpty() || coils.size() > 2 || tap.isPresent() && !junction) {
        throw new IllegalArgumentException("a tap needs a pickup of two coils");
      }
    }

    /** One pickup with its controls. */
    public static Branch of(String name, CoilModel coil, Controls controls) {
      return new Branch(List.of(new Source(name, coil, 1)), Optional.empty(), controls);
    }
  }

  private static boolean innerNode(Source source) {
    return source.coil().innerNodes() > 0;
  }

  /**
   * The junction of two coils brought to the cold end, so that the coil next to ground is silenced.
   *
   * @param resistor parameter [ohm] of a resistor that silences it in part; empty for a wire
   */
  public record Tap(Optional<String> resistor) {}

  /**
   * Controls between two nodes, seen from the pickup: bass cut, tone, volume.
   *
   * @param bassCut high-pass in the hot lead
   * @param volume volume pot
   * @param bleed treble bleed across the volume pot
   * @param tone tone control
   * @param toneAfterVolume whether the tone control hangs on the volume pot's wiper
   * @param independent whether the pickup is on the volume pot's wiper and the output on its end,
   *     so that one volume at zero does not silence the other pickup
   */
  public record Controls(
      Optional<BassCut> bassCut,
      Optional<GuitarWiring.Volume> volume,
      Optional<TrebleBleed> bleed,
      Optional<GuitarWiring.Tone> tone,
      boolean toneAfterVolume,
      boolean independent) {

    /** No controls. */
    public static final Controls NONE =
        new Controls(
            Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), false, false);

    public Controls {
      if (bleed.isPresent() && volume.isEmpty()) {
        throw new IllegalArgumentException("a treble bleed needs a volume pot to lie across");
      }
    }
  }

  /**
   * A capacitor in the hot lead, with a pot across it that passes what it holds back.
   *
   * @param capacitor parameter [F]
   * @param pot parameter [ohm]; empty where the capacitor is switched in
   * @param share of the pot's resistance in circuit, 0 (bridged, no cut) to 1 (full cut)
   * @param odds parameter of the wiper's place where that is to be fitted; else it is exact
   */
  public record BassCut(
      String capacitor, Optional<String> pot, double share, Optional<String> odds) {
    public BassCut {
      if (!(share >= 0 && share <= 1)) {
        throw new IllegalArgumentException("a bass cut's share is 0 to 1: " + share);
      }
    }
  }

  /**
   * A treble bleed between the pickup's lug of the volume pot and its wiper.
   *
   * @param capacitor parameter [F]
   * @param resistor parameter [ohm]; empty for none
   * @param inSeries whether the resistor is in series with the capacitor, not across it
   */
  public record TrebleBleed(String capacitor, Optional<String> resistor, boolean inSeries) {}

  /**
   * A source at the jack.
   *
   * @param resistor parameter [ohm]
   * @param stray parameter: capacitance from end to end of the resistor [F]; empty for none
   */
  public record Drive(String resistor, Optional<String> stray) {}

  /**
   * A capacitor ahead of an input's resistance, see {@link Element.CoupledInput}.
   *
   * @param corner parameter [Hz]
   * @param aheadOdds parameter, pure number
   */
  public record Coupling(String corner, String aheadOdds) {}

  /**
   * What is plugged in.
   *
   * @param cable parameter [F]
   * @param inputResistance of amplifier or recorder, parameter [ohm]
   * @param inputCapacitance of amplifier or recorder, parameter [F]
   * @param across parts across the jack
   * @param seriesDrive between an ideal source and the jack
   * @param coupling how the input's resistance stands behind a coupling capacitor
   */
  public record Output(
      Optional<String> cable,
      Optional<String> inputResistance,
      Optional<String> inputCapacitance,
      List<GuitarWiring.Clipped> across,
      Optional<Drive> seriesDrive,
      Optional<Coupling> coupling) {
    public Output {
      across = List.copyOf(across);
    }

    /** No source at the jack. */
    public Output(
        Optional<String> cable,
        Optional<String> inputResistance,
        Optional<String> inputCapacitance,
        List<GuitarWiring.Clipped> across) {
      this(cable, inputResistance, inputCapacitance, across, Optional.empty(), Optional.empty());
    }

    /** Nothing across the jack. */
    public Output(
        Optional<String> cable,
        Optional<String> inputResistance,
        Optional<String> inputCapacitance) {
      this(cable, inputResistance, inputCapacitance, List.of());
    }

    /** Nothing plugged in. */
    public static final Output NONE =
        new Output(Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** The same with the input's resistance behind a coupling capacitor. */
  public Harness coupled(Coupling coupling) {
    return new Harness(
        branches,
        joint,
        master,
        new Output(
            output.cable(),
            output.inputResistance(),
            output.inputCapacitance(),
            output.across(),
            output.seriesDrive(),
            Optional.of(coupling)));
  }

  /**
   * The circuit. Controls that are full up cost no node. The port for the pickup is the hot end of
   * the first branch.
   */
  public Circuit circuit() {
    return new HarnessNetlist(this, true).circuit();
  }

  /**
   * Everything but the first branch's pickup. Probe it as seen from that pickup's hot end.
   *
   * @throws IllegalArgumentException when nothing is connected
   */
  public Circuit load() {
    return new HarnessNetlist(this, false).circuit();
  }
}
