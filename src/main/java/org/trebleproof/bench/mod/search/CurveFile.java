package org.trebleproof.bench.mod.search;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.trebleproof.file.GivenFile;
import org.trebleproof.quantity.Refusal;

/**
 * A curve to come near to: lines of a frequency [Hz] and a level [dB], with or without a heading.
 */
public final class CurveFile {
  private static final long LARGEST = 4_000_000;

  private CurveFile() {}

  /**
   * Reads such a file.
   *
   * @throws Refusal if it cannot be used, in one sentence
   */
  public static Target.Shape read(Path file) {
    Path name = file.getFileName() == null ? file : file.getFileName();
    List<String> lines;
    try {
      Path from = GivenFile.readable(file, words -> new Refusal(name + ": " + words));
      if (Files.size(from) > LARGEST) {
        throw new Refusal(name + ": is far too large for a curve: check the name.");
      }
      lines = Files.readAllLines(from);
    } catch (IOException e) {
      throw new Refusal(name + ": could not be read as a table in UTF-8: save it as CSV again.");
    }
    List<double[]> points = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      try {
        String[] cells = line.split("[,;\t]");
        double[] point = {Double.parseDouble(cells[0]), Double.parseDouble(cells[1])};
        boolean rises = points.isEmpty() || point[0] > points.get(points.size() - 1)[0];
        if (!(point[0] > 0) || !Double.isFinite(point[1]) || !rises) {
          throw new Refusal(
              name + ": line " + (i + 1) + " needs a frequency above the one before, and a level.");
        }
        points.add(point);
      } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
        if (!points.isEmpty()) {
          throw new Refusal(name + ": line " + (i + 1) + " is not a frequency and a level.");
        }
      }
    }
    if (points.size() < 3) {
      throw new Refusal(name + ": needs at least three lines of frequency and level.");
    }
    return new Target.Shape(
        name.toString(),
        points.stream().mapToDouble(p -> p[0]).toArray(),
        points.stream().mapToDouble(p -> p[1]).toArray());
  }
}
