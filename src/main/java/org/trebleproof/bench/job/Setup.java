package org.trebleproof.bench.job;

import java.util.Optional;
import java.util.function.Consumer;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Temperature;

/**
 * One state of the guitar: which parts are wired, and where the controls stand. The strings name
 * parts of the job.
 *
 * @param name as the job calls it
 * @param pickup the pickup
 * @param volume volume pot
 * @param tone tone pot; comes with a tone capacitor
 * @param toneCapacitor tone capacitor
 * @param toneAfterVolume whether the tone branch hangs on the volume pot's wiper
 * @param cable lead to the recorder
 * @param dcResistance ohmmeter across the jack, controls full up and nothing else plugged in
 * @param extras what is wired beyond these
 * @param temperature of the room while this setup was measured, where it was read
 */
public record Setup(
    String name,
    String pickup,
    Optional<PotUse> volume,
    Optional<PotUse> tone,
    Optional<String> toneCapacitor,
    boolean toneAfterVolume,
    Optional<String> cable,
    Optional<Marking> dcResistance,
    Extras extras,
    Optional<Temperature> temperature) {

  /** Whether it is a coil on the bench and no guitar. */
  public boolean bare() {
    return volume.isEmpty() && tone.isEmpty() && cable.isEmpty();
  }

  /** A setup beside which no temperature was read. */
  public Setup(
      String name,
      String pickup,
      Optional<PotUse> volume,
      Optional<PotUse> tone,
      Optional<String> toneCapacitor,
      boolean toneAfterVolume,
      Optional<String> cable,
      Optional<Marking> dcResistance,
      Extras extras) {
    this(
        name,
        pickup,
        volume,
        tone,
        toneCapacitor,
        toneAfterVolume,
        cable,
        dcResistance,
        extras,
        Optional.empty());
  }

  /** A setup with nothing wired beyond these. */
  public Setup(
      String name,
      String pickup,
      Optional<PotUse> volume,
      Optional<PotUse> tone,
      Optional<String> toneCapacitor,
      boolean toneAfterVolume,
      Optional<String> cable,
      Optional<Marking> dcResistance) {
    this(
        name,
        pickup,
        volume,
        tone,
        toneCapacitor,
        toneAfterVolume,
        cable,
        dcResistance,
        Extras.NONE);
  }

  /** The same with another volume pot, or none. */
  public Setup withVolume(Optional<PotUse> other) {
    return with(draft -> draft.volume = other);
  }

  /** The same with another tone pot. */
  public Setup withTone(Optional<PotUse> other) {
    return with(draft -> draft.tone = other);
  }

  /** The same with another lead, or none. */
  public Setup withCable(Optional<String> other) {
    return with(draft -> draft.cable = other);
  }

  /** The same with another ohmmeter reading. */
  public Setup withDcResistance(Marking reading) {
    return with(draft -> draft.dcResistance = Optional.of(reading));
  }

  /** The same with something else wired beyond these. */
  public Setup withExtras(Extras other) {
    return with(draft -> draft.extras = other);
  }

  private Setup with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.setup();
  }

  /** A setup while some of it is changed. */
  private static final class Draft {
    private final Setup from;
    private Optional<PotUse> volume;
    private Optional<PotUse> tone;
    private Optional<String> cable;
    private Optional<Marking> dcResistance;
    private Extras extras;

    Draft(Setup from) {
      this.from = from;
      volume = from.volume;
      tone = from.tone;
      cable = from.cable;
      dcResistance = from.dcResistance;
      extras = from.extras;
    }

    Setup setup() {
      return new Setup(
          from.name,
          from.pickup,
          volume,
          tone,
          from.toneCapacitor,
          from.toneAfterVolume,
          cable,
          dcResistance,
          extras,
          from.temperature);
    }
  }

  /**
   * A pot at a rotation.
   *
   * @param part name of the pot
   * @param rotation 0 (off) to 1 (full up)
   * @param centreRatio resistance share at half rotation: 0.5 for a linear taper, as measured
   */
  public record PotUse(String part, double rotation, double centreRatio) {}
}
