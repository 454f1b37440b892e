package org.trebleproof.bench.strike;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Marking;

/**
 * A coil's resistance out of an ohmmeter's reading at the jack: 1 / (1/reading - 1/pot), with the
 * volume pot full up across the coil and the tone circuit blocked by its capacitor. Strikes tell
 * nothing of either, so that the reading may as well stand as the coil's own.
 */
final class CoilByOhmmeter {

  private CoilByOhmmeter() {}

  /** The job with what its readings say of the pickups; a narrower marking stands. */
  static Job within(Job job) {
    Map<String, Part> parts = new LinkedHashMap<>(job.parts());
    for (Setup setup : job.setups().values()) {
      Part pickup = parts.get(setup.pickup());
      setup
          .dcResistance()
          .flatMap(reading -> coil(reading, pot(job, setup)))
          .filter(m -> pickup.marking().filter(own -> own.tolerance() <= m.tolerance()).isEmpty())
          .ifPresent(
              m ->
                  parts.put(
                      pickup.name(),
                      new Part(pickup.name(), pickup.kind(), Optional.of(m), pickup.coil())));
    }
    return job.withParts(parts);
  }

  private static Optional<Marking> pot(Job job, Setup setup) {
    return setup.volume().map(Setup.PotUse::part).map(job.parts()::get).flatMap(Part::marking);
  }

  /** Empty where the pot as marked is below what was read: then nothing follows for the coil. */
  private static Optional<Marking> coil(Marking reading, Optional<Marking> pot) {
    if (pot.isEmpty()) {
      return Optional.of(reading);
    }
    double across = pot.get().value();
    if (across <= reading.value()) {
      return Optional.empty();
    }
    double ohm = 1 / (1 / reading.value() - 1 / across);
    return Optional.of(
        new Marking(
            ohm,
            Math.hypot(
                reading.tolerance() * ohm / reading.value(), pot.get().tolerance() * ohm / across),
            reading.stated()));
  }
}
