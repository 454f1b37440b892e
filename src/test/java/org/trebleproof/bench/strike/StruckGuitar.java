package org.trebleproof.bench.strike;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.signal.strike.PluckedString;

/**
 * A made-up guitar struck with a pick: strings written down partial by partial, and a circuit by
 * textbook formulas that share nothing with the program's nodal analysis.
 */
final class StruckGuitar {

  static final int RATE = 32000;

  /** A coil with one loss resistor, loaded by a pot, a tone branch, a lead and a recorder. */
  record Load(double volume, double cable) {

    double level(double hz) {
      Complex s = new Complex(0, 2 * Math.PI * hz);
      Complex eddy = s.multiply(0.6).multiply(40e3).divide(s.multiply(0.6).add(40e3));
      Complex coil = s.multiply(2.2).add(eddy).add(6500);
      Complex tone = Complex.ONE.divide(s.multiply(22e-9)).add(480e3);
      Complex load =
          s.multiply(cable + 80e-12 + 110e-12)
              .add(1 / volume)
              .add(1e-6)
              .add(Complex.ONE.divide(tone));
      return Complex.ONE.divide(coil.multiply(load).add(1)).abs();
    }
  }

  private static final double APART = 1.0;

  private StruckGuitar() {}

  /** What a player does. */
  record Player(double[] notes, int strikes, double strengthSd, double gain, long seed) {}

  static float[] recording(Player player, Load load) {
    return recording(player, load, hz -> 1);
  }

  /**
   * One session.
   *
   * @param hand what this session's way of striking does to every strike
   */
  static float[] recording(Player player, Load load, DoubleUnaryOperator hand) {
    SplittableRandom random = new SplittableRandom(player.seed);
    float[] x = new float[(int) ((1.6 + APART * player.strikes) * RATE)];
    PluckedString.hiss(x, 2e-5, random);
    for (int i = 0; i < player.strikes; i++) {
      double strength = 0.15 * Math.pow(10, player.strengthSd * normal(random) / 20);
      double place = 0.19 + 0.012 * normal(random);
      double hz = player.notes[i % player.notes.length] * Math.pow(2, 3 * normal(random) / 1200);
      double soft = 7000 * Math.exp(0.06 * normal(random));
      PluckedString.add(
          x,
          RATE,
          (int) ((0.8 + APART * i) * RATE),
          new PluckedString.Pluck(hz, 5e-5, place, strength * player.gain),
          f -> load.level(f) * hand.applyAsDouble(f) / (1 + f * f / soft / soft),
          random);
    }
    for (int i = 0; i < x.length; i++) {
      for (int k = 1; k < 12; k += 2) {
        x[i] += (float) (1.5e-4 / k * Math.sin(2 * Math.PI * 50.02 * k * i / RATE + k));
      }
    }
    return x;
  }

  private static double normal(SplittableRandom random) {
    return Math.sqrt(-2 * Math.log(1 - random.nextDouble()))
        * Math.cos(2 * Math.PI * random.nextDouble());
  }

  static void write(Path folder, String name, float[] samples) {
    WavWriter.write(
        folder.resolve(name + ".wav"), new float[][] {samples}, RATE, WavWriter.Encoding.PCM24);
  }

  /** A job file in a folder, with one capture per setup. */
  static Path job(Path folder, boolean described, List<String> setups) throws IOException {
    StringBuilder captures = new StringBuilder();
    StringBuilder list = new StringBuilder();
    for (String setup : setups) {
      String separator = captures.length() == 0 ? "" : ",";
      captures
          .append(separator)
          .append(
              "{\"id\": \"%s\", \"file\": \"%s.wav\", \"setup\": \"%s\"}"
                  .formatted(setup, setup, setup));
      list.append(separator)
          .append(
              described
                  ? ("\"%s\": {\"pickup\": \"pickup\", \"volume\": \"%s volume\", \"tone\": \"tone\","
                          + " \"toneCapacitor\": \"cap\", \"cable\": \"lead\"}")
                      .formatted(setup, setup)
                  : "\"%s\": {\"pickup\": \"pickup\"}".formatted(setup));
    }
    String parts =
        described
            ? ", \"before volume\": {\"kind\": \"pot\", \"value\": \"250k\"}, \"after volume\":"
                + " {\"kind\": \"pot\", \"value\": \"500k\"}, \"tone\": {\"kind\": \"pot\","
                + " \"value\": \"500k\"}, \"cap\": {\"kind\": \"capacitor\", \"value\": \"22n\"},"
                + " \"lead\": {\"kind\": \"cable\", \"capacitance\": \"500p 15%\"}"
                + (setups.contains("third")
                    ? ", \"third volume\": {\"kind\": \"pot\", \"value\": \"1M\"}"
                    : "")
            : "";
    Path file = folder.resolve("job.json");
    Files.writeString(
        file,
        "{\"trebleproof\": 1, \"title\": \"struck\", \"fixture\": {\"kind\": \"strike\","
            + " \"deviceChannel\": 1, \"input\": {\"resistance\": \"1M 1%\", \"capacitance\": \"80p"
            + " 10%\"}}, \"mainsHz\": 50, \"parts\": {\"pickup\": {\"kind\": \"pickup\"}"
            + parts
            + "}, \"setups\": {"
            + list
            + "}, \"captures\": ["
            + captures
            + "]}");
    return file;
  }
}
