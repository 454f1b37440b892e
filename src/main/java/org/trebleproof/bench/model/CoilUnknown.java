package org.trebleproof.bench.model;

import org.trebleproof.circuit.CoilParameter;

/**
 * An unknown of a job that is a pickup's own.
 *
 * @param pickup name of the pickup
 * @param parameter which parameter of its model
 */
public record CoilUnknown(String pickup, CoilParameter parameter) {

  /** What it is. */
  public CoilParameter.Role role() {
    return parameter.role();
  }
}
