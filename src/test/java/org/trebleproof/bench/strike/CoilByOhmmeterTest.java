package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;

/** Two resistors side by side: 6500 ohm and 250 kohm read 250000 * 6500 / 256500 = 6335.28 ohm. */
class CoilByOhmmeterTest {

  @TempDir Path folder;

  private Job job(String reading, String pickup) throws IOException {
    for (String name : List.of("before", "after")) {
      StruckGuitar.write(
          folder,
          name,
          StruckGuitar.recording(
              new StruckGuitar.Player(
                  new double[] {110, 146.8324, 195.9977, 329.6276}, 8, 1.2, 1, name.length()),
              new StruckGuitar.Load(name.equals("before") ? 262e3 : 484e3, 520e-12)));
    }
    Path file = StruckGuitar.job(folder, true, List.of("before", "after"));
    Files.writeString(
        file,
        Files.readString(file)
            .replace(
                "\"before\": {\"pickup\": \"pickup\",",
                "\"before\": {\"pickup\": \"pickup\", \"dcResistance\": \"" + reading + "\",")
            .replace("{\"kind\": \"pickup\"}", "{\"kind\": \"pickup\"" + pickup + "}"));
    return JobReader.read(file);
  }

  private static Marking coil(Job job) {
    return CoilByOhmmeter.within(job).parts().get("pickup").marking().orElseThrow();
  }

  @Test
  void thePotIsTakenOut() throws IOException {
    Marking coil = coil(job("6335.28 1%", ""));
    assertEquals(6500, coil.value(), 0.1);
    // 1 % of the reading and 20 % of a pot that counts for 2.6 %
    assertEquals(Math.hypot(0.01 * 6500 / 6335.28, 0.2 * 6500 / 250e3), coil.tolerance(), 1e-6);
  }

  @Test
  void aNarrowerMarkingStands() throws IOException {
    assertEquals(6400, coil(job("6335.28 1%", ", \"resistance\": \"6.4k 0.5%\"")).value());
    assertEquals(6500, coil(job("6335.28 1%", ", \"resistance\": \"6k 10%\"")).value(), 0.1);
  }

  @Test
  void aPotBelowTheReadingSaysNothing() throws IOException {
    Job job = job("300k 1%", "");
    assertTrue(CoilByOhmmeter.within(job).parts().get("pickup").marking().isEmpty());
  }

  @Test
  void aJobOfStrikesUsesIt() throws IOException {
    Estimate ohm =
        new FitJob()
            .run(job("6335.28 1%", "")).rows().stream()
                .filter(r -> r.key().text().equals("pickup.resistance"))
                .findFirst()
                .flatMap(FitResult.Row::estimate)
                .orElseThrow();
    assertEquals(6500, ohm.value(), 0.02 * 6500);
    assertTrue(ohm.halfWidth() < 0.02 * 6500, ohm.toString());
  }
}
