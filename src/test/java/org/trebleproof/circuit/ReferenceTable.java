package org.trebleproof.circuit;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/** Reads the number tables beside the tests. */
final class ReferenceTable {
  private ReferenceTable() {}

  /** Rows of numbers, comma-separated; lines that start with # are notes. */
  static List<double[]> read(String name) throws IOException {
    try (InputStream in = ReferenceTable.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IOException("no table " + name);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .map(
              line -> Arrays.stream(line.split(",", -1)).mapToDouble(Double::parseDouble).toArray())
          .toList();
    }
  }
}
