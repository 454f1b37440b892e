package org.trebleproof.shelf.item;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * All that is kept of a measurement beside its values.
 *
 * @param job as a job file holds it
 * @param result as result files hold it, as it was worked out last
 * @param guitar as guitar files hold it
 * @param recordings by which the measurement is known again
 * @param files by the names that the job has for them
 */
public record KeptMeasurement(
    String job,
    String result,
    Optional<String> guitar,
    String recordings,
    Map<String, Kept> files) {

  public KeptMeasurement {
    files = Collections.unmodifiableMap(new LinkedHashMap<>(files));
  }

  /** A file by its hash. */
  public record Kept(NewCoil.Role role, String sha256) {}
}
