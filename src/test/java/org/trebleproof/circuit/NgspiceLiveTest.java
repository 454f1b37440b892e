package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every wiring, coil model and probe against ngspice's AC analysis, run on the spot. With {@code
 * -Dngspice.record=FOLDER} the committed part of the cases is written to that folder anew, netlists
 * and answers.
 */
@Tag("ngspice")
class NgspiceLiveTest {

  @Test
  void everyCircuitAgrees(@TempDir Path folder) throws IOException, InterruptedException {
    String record = System.getProperty("ngspice.record", "");
    List<NgspiceCase> committed = NgspiceCase.committed();
    List<String> wrong = new ArrayList<>();
    double[] worst = new double[2];
    List<NgspiceCase> all = NgspiceCase.all();
    for (NgspiceCase one : all) {
      List<double[]> rows = one.run(folder);
      assertEquals(31, rows.size(), one.name());
      double[] gap = one.disagreement(rows);
      worst[0] = Math.max(worst[0], gap[0]);
      worst[1] = Math.max(worst[1], gap[1]);
      if (!(gap[0] < 1e-6 && gap[1] < 1e-5)) {
        wrong.add(one.name() + ": " + gap[0] + " dB, " + gap[1] + " degree");
      }
      if (!record.isEmpty() && committed.contains(one)) {
        Path target = Files.createDirectories(Path.of(record));
        Files.writeString(target.resolve(one.name() + ".cir"), one.deck());
        StringBuilder csv =
            new StringBuilder("# hz, re, im; ngspice's answer to the .cir beside\n");
        for (double[] row : rows) {
          csv.append(row[0]).append(',').append(row[1]).append(',').append(row[2]).append('\n');
        }
        Files.writeString(target.resolve(one.name() + ".csv"), csv);
      }
    }
    System.out.printf(
        "ngspice: %d circuits, worst disagreement %.2g dB, %.2g degree%n",
        all.size(), worst[0], worst[1]);
    assertTrue(wrong.isEmpty(), () -> wrong.size() + " disagree: " + wrong);
  }
}
