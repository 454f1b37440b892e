package org.trebleproof.report.demonstration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Refusal;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The two sounds of a job in the customer's page. */
class TwoSoundsTest {

  @Test
  void strikesAreHeardAsTheyWereRecorded() throws Exception {
    Job job = JobReader.read(Path.of("sample-captures/strikes-pot-swap/job.json"));
    TwoSounds sounds = TwoSounds.of(job, Optional.empty());
    assertEquals(List.of("before", "after"), sounds.names());
    double most = 0;
    for (float[] sound : sounds.sounds()) {
      assertTrue(sound.length <= 6 * sounds.rate());
      for (float sample : sound) {
        most = Math.max(most, Math.abs(sample));
      }
    }
    assertEquals(0.1, most, 1e-6, "20 dB below full scale");
    NodeList players =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(sounds.html())))
            .getElementsByTagName("audio");
    assertEquals(2, players.getLength());
    for (int i = 0; i < 2; i++) {
      Element player = (Element) players.item(i);
      assertEquals("none", player.getAttribute("preload"));
      assertTrue(player.getAttribute("autoplay").isEmpty(), "nothing sounds by itself");
      String source = player.getAttribute("src");
      byte[] wav = Base64.getDecoder().decode(source.substring(source.indexOf(',') + 1));
      assertEquals(44 + 2 * sounds.sounds().get(i).length, wav.length);
      assertEquals("RIFF", new String(wav, 0, 4, java.nio.charset.StandardCharsets.US_ASCII));
    }
    assertTrue(sounds.html().length() < 2_500_000, sounds.html().length() + " bytes");
  }

  @Test
  void withoutPartsThereIsNothingToComputeFrom() {
    Job job = JobReader.read(Path.of("sample-captures/pot-swap/job.json"));
    Refusal none = assertThrows(Refusal.class, () -> TwoSounds.of(job, Optional.empty()));
    assertEquals(
        "job.json does not tell its parts, so there are no two sounds: leave --sounds out.",
        none.getMessage());
  }
}
