package org.trebleproof.shelf.item;

import java.util.OptionalDouble;

/**
 * Under what a coil was measured; texts are empty where nobody said.
 *
 * @param bench at which
 * @param who measured it
 * @param date on which, as ISO 8601 writes it
 * @param celsius temperature of the coil
 */
public record Circumstances(String bench, String who, String date, OptionalDouble celsius) {}
