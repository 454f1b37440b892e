package org.trebleproof.desktop;

import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Random;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;

/** A shelf of many invented coils, put there at once. */
final class ShelfOnTrial {

  private static final long SEED = 20261130;

  private ShelfOnTrial() {}

  /** Coils "grey 1", "grey 2" and on; every hundredth is open. */
  static void fill(Path file, int coils) throws SQLException {
    ShelfAddress address = ShelfAddress.of(file.toString());
    ShelfStore.open(address).close();
    Random random = new Random(SEED);
    try (Connection all = DriverManager.getConnection(address.jdbc())) {
      all.setAutoCommit(false);
      try (PreparedStatement coil =
              all.prepareStatement("INSERT INTO coil VALUES (?, ?, 'coil', ?, '', '2026-11-30')");
          PreparedStatement measurement =
              all.prepareStatement(
                  "INSERT INTO measurement VALUES (?, ?, ?, '', ?, 22, '2026-11-30', '{}', ?)");
          PreparedStatement result =
              all.prepareStatement(
                  "INSERT INTO result VALUES (?, ?, 1, '0.1.0', '2026-11-30', ?, ?, '{}', NULL)");
          PreparedStatement reading =
              all.prepareStatement("INSERT INTO reading VALUES (?, ?, ?, ?, ?, 'measured')");
          PreparedStatement curve = all.prepareStatement("INSERT INTO curve VALUES (?, ?, ?, ?)")) {
        for (int i = 1; i <= coils; i++) {
          String id = "coil" + i;
          boolean open = i % 100 == 0;
          double turns = 1 + 0.02 * random.nextGaussian();
          bind(coil, id, "grey " + i, i % 2 == 0 ? "hot bridge" : "neck");
          bind(
              measurement,
              id,
              id,
              i % 3 == 0 ? "bench a" : "bench b",
              "2026-11-" + (10 + i % 20),
              id);
          bind(
              result,
              id,
              id,
              open ? "open" : "good",
              open ? "The winding is open." : "All is well.");
          if (!open) {
            value(reading, id, "resistance", 5700 * turns, 5);
            value(reading, id, "inductance", 2.4 * turns * turns, 0.01);
            value(reading, id, "capacitance", 110e-12, 8e-12);
            value(reading, id, "resonance", 4000 / turns, 12);
            value(reading, id, "peak", 6 + random.nextGaussian() / 5, 0.1);
            value(reading, id, "q", 2.2, 0.05);
            value(reading, id, "loss", 8e-6, 1e-7);
            double[] level = level(4000 / turns);
            bind(curve, id, bytes(level, 0), bytes(level, -0.2), bytes(level, 0.2));
          }
        }
      }
      all.commit();
    }
  }

  /** A second-order low pass with Q of two. */
  private static double[] level(double resonance) {
    double[] hz = CurvePair.frequencies();
    double[] level = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      double x = hz[i] / resonance;
      level[i] = -10 * Math.log10(Math.pow(1 - x * x, 2) + x * x / 4);
    }
    return level;
  }

  private static byte[] bytes(double[] values, double shift) {
    ByteBuffer buffer = ByteBuffer.allocate(values.length * Double.BYTES);
    for (double value : values) {
      buffer.putDouble(value + shift);
    }
    return buffer.array();
  }

  private static void value(
      PreparedStatement reading, String id, String quantity, double value, double half)
      throws SQLException {
    bind(reading, id, quantity, value, value - half, value + half);
  }

  private static void bind(PreparedStatement statement, Object... values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    statement.executeUpdate();
  }
}
