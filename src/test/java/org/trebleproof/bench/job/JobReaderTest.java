package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.Mutation;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Temperature;

class JobReaderTest {

  private static final String JOB =
      """
      {
        "trebleproof": 1,
        "title": "A swap",
        "fixture": {
          "kind": "exciter",
          "coilFixed": true,
          "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}
        },
        "mainsHz": 50,
        "parts": {
          "pickup": {"kind": "pickup", "resistance": "5.7k 1%"},
          "old volume": {"kind": "pot", "value": "250k", "centreRatio": 0.15},
          "new volume": {"kind": "pot", "value": "500k 10%"},
          "tone pot": {"kind": "pot", "value": "250k 20%"},
          "tone cap": {"kind": "capacitor", "value": "22n 5%"},
          "lead": {"kind": "cable", "capacitance": "480p 10%"},
          "clip": {"kind": "capacitor", "value": "1n 1%"}
        },
        "setups": {
          "before": {"pickup": "pickup", "volume": {"part": "old volume", "rotation": 0.5}, "tone": "tone pot", "toneCapacitor": "tone cap", "tonePosition": "after", "cable": "lead", "dcResistance": "5.57k"},
          "after": {"extends": "before", "volume": "new volume", "dcResistance": null}
        },
        "captures": [
          {"id": "one", "file": "one.wav", "setup": "before", "across": ["clip"]},
          {"id": "two", "file": "one.wav", "setup": "after"}
        ]
      }
      """;

  private static final String SERIES =
      """
      {"trebleproof": 1,
       "fixture": {"kind": "series", "seriesResistance": "100k 0.1%", "calibration": "a.json"},
       "parts": {"pickup": {"kind": "pickup"}},
       "setups": {"bare": {"pickup": "pickup"}},
       "captures": [{"id": "bare", "file": "one.wav", "setup": "bare"}]}
      """;

  @TempDir Path folder;

  @BeforeEach
  void sound() throws IOException {
    Files.writeString(folder.resolve("one.wav"), "not read here");
    Files.copy(Path.of("calibration/bench-interface-a.json"), folder.resolve("a.json"));
  }

  private Job read(String text) throws IOException {
    return JobReader.read(
        Files.writeString(folder.resolve("job.json"), text), Map.of(), JobReaderTest::today);
  }

  private static LocalDate today() {
    return LocalDate.of(2026, 11, 25);
  }

  private static List<String> codes(Job job) {
    return job.notes().stream().map(f -> f.code().key()).toList();
  }

  @Test
  void readsEverything() throws IOException {
    Job job = read(JOB);
    assertEquals("A swap", job.title());
    assertEquals(50, job.mainsHz().orElseThrow());
    Fixture.Exciter fixture = (Fixture.Exciter) job.fixture();
    assertTrue(fixture.coilFixed());
    assertEquals(1, fixture.referenceChannel());
    assertEquals(2, fixture.deviceChannel());
    assertEquals(new Marking(1e6, 0.01, true), fixture.input().resistance());
    assertEquals(List.copyOf(job.parts().keySet()).get(1), "old volume");
    Setup before = job.setups().get("before");
    assertEquals(Optional.of(new Setup.PotUse("old volume", 0.5, 0.15)), before.volume());
    assertEquals(Optional.of(new Setup.PotUse("tone pot", 1, 0.5)), before.tone());
    assertTrue(before.toneAfterVolume());
    assertEquals(5570, before.dcResistance().orElseThrow().value(), 1e-9);
    Setup after = job.setups().get("after");
    assertEquals("new volume", after.volume().orElseThrow().part());
    assertEquals(Optional.of("lead"), after.cable());
    assertEquals(Optional.empty(), after.dcResistance());
    assertEquals(List.of("clip"), job.captures().get(0).across());
    assertEquals(folder.resolve("one.wav"), job.captures().get(0).file());
    assertEquals(List.of("tolerance-assumed"), codes(job));
    assertEquals("old volume 20 %, before ohmmeter reading 1 %", job.notes().get(0).evidence());
  }

  @Test
  void takesInputAndChannelsFromACalibration() throws IOException {
    Job job = read(SERIES);
    Fixture.Series series = (Fixture.Series) job.fixture();
    assertEquals(1.02e6, series.input().resistance().value(), 1e-6);
    Fixture.ChannelMatch channels = series.channels().orElseThrow();
    assertEquals(1.0021, channels.ratio().value());
    assertEquals(4e-8, channels.delay(), 1e-20);
    assertEquals(2e-8, channels.delayHalfWidth(), 1e-20);
    assertEquals(List.of(), codes(job));
    assertEquals(48000, job.calibration().orElseThrow().sampleRate());
  }

  @Test
  void saysWhenACalibrationIsOld() throws IOException {
    Path calibration = folder.resolve("a.json");
    Files.writeString(
        calibration, Files.readString(calibration).replace("2026-10-03", "2025-11-24"));
    assertEquals(List.of("calibration-stale"), codes(read(SERIES)));
    assertEquals(
        FindingCode.CALIBRATION_MISMATCH,
        read(SERIES).calibration().orElseThrow().mismatch(96000).orElseThrow().code());
  }

  @Test
  void saysWhatItAssumes() throws IOException {
    Job job = read(SERIES.replace(", \"calibration\": \"a.json\"", ""));
    assertEquals(List.of("input-assumed", "uncalibrated-channels"), codes(job));
    assertEquals(new Marking(1e6, 0.2, false), job.fixture().input().resistance());
    assertEquals(new Marking(80e-12, 0.5, false), job.fixture().input().capacitance());
    assertFalse(job.fixture().input().stated());
  }

  @Test
  void optionsFillGapsOnly() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("job.json"), SERIES.replace(", \"calibration\": \"a.json\"", ""));
    Job job =
        JobReader.read(
            file,
            Map.of(
                List.of("fixture", "input", "resistance"),
                "470k 1%",
                List.of("fixture", "seriesResistance"),
                "10k"),
            JobReaderTest::today);
    assertEquals(470e3, job.fixture().input().resistance().value());
    assertEquals(100e3, ((Fixture.Series) job.fixture()).seriesResistance().value());
    assertTrue(codes(job).contains("option-ignored"));
  }

  @Test
  void anOptionReachesASetupWithADotInItsName() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("job.json"),
            SERIES
                .replace(", \"calibration\": \"a.json\"", "")
                .replace("\"bare\"", "\"No. 1 bare\""));
    Job job =
        JobReader.read(
            file,
            Map.of(List.of("setups", "No. 1 bare", "dcResistance"), "5.6k 1%"),
            JobReaderTest::today);
    assertEquals(5600, job.setups().get("No. 1 bare").dcResistance().orElseThrow().value());
  }

  /** Each row spoils the job in one place; the sentence must name that place and the way out. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"title\"       | \"tilte\"    | unknown key \"tilte\": did you mean \"title\"?",
        "\"coilFixed\"   | \"coilfixed\"| in fixture: did you mean \"coilFixed\"?",
        "\"centreRatio\" | \"taper\"    | unknown key \"taper\" in parts.\"old volume\"",
        "\"coilFixed\": true | \"coilFixed\": 1 | must be true or false",
        "\"kind\": \"cable\" | \"kind\": \"cabel\" | did you mean \"cable\"?",
        "\"22n 5%\"      | \"22 kF\"    | parts.\"tone cap\": \"22 kF\" would be a capacitor of 22000 farad",
        "\"22n 5%\"      | \"22k ohm\"  | is given in ohm where a capacitance in farad",
        "\"22n 5%\"      | 22           | must be text in trade notation",
        "\"250k 20%\"    | \"-250k\"    | is negative",
        "\"mainsHz\": 50 | \"mainsHz\": \"50\" | must be a number without quotation marks",
        "\"mainsHz\": 50 | \"mainsHz\": 55 | must lie near 50 or 60",
        "\"capacitance\": \"480p 10%\" | \"length\": \"900 m\" | is no length of a guitar lead",
        "\"480p 10%\" | \"480p 10%\", \"length\": \"5 m\" | delete one of the two",
        "\"dcResistance\" | \"temperature\": \"400 C\", \"dcResistance\" | setups.before: \"400 C\" is no temperature",
        "\"mainsHz\": 50 | \"mainsHz\": 500 | must lie near 50 or 60",
        "\"rotation\": 0.5 | \"rotation\": 5 | must lie between 0 and 1",
        "\"part\": \"old volume\" | \"part\": \"old volum\" | did you mean \"old volume\"?",
        "\"part\": \"old volume\" | \"part\": \"tone cap\" | a capacitor where a pot is wanted",
        "\"toneCapacitor\": \"tone cap\", | `` | needs a toneCapacitor",
        "\"tone\": \"tone pot\" | \"tone\": \"old volume\" | same pot as volume",
        "\"id\": \"two\" | \"id\": \"one\" | like another capture's",
        "\"setup\": \"after\" | \"setup\": \"aftr\" | did you mean \"after\"?",
        "\"across\": [\"clip\"] | \"across\": [\"lid\"] | is no part of this job",
        "\"across\": [\"clip\"] | \"across\": \"clip\" | must be a list",
        "\"file\": \"one.wav\" | \"file\": \"none.wav\" | does not exist in",
        "\"pickup\": \"pickup\", | \"pickup\": \"pickup\", \"extends\": \"after\", | before -> after -> before",
        "\"trebleproof\": 1, | `` | its first key must be \"trebleproof\": 1",
        "\"trebleproof\": 1 | \"trebleproof\": 2 | must be 1",
        "\"mainsHz\": 50, | \"mainsHz\": 50, \"mainsHz\": 50, | stands there twice",
        "\"1n 1%\"} | \"1n 1%\"}, | job.json, line 18, column",
        "\"1n 1%\"} | \"1n 1%\"}, | a comma stands before a closing bracket",
        "\"A swap\" | null | is null",
        "\"mainsHz\": 50, | \"mainsHz\" 50, | job.json, line 9, column"
      })
  void refusesNamingThePlace(String good, String bad, String words) throws IOException {
    String spoiled =
        JOB.replaceFirst(
            java.util.regex.Pattern.quote(good),
            java.util.regex.Matcher.quoteReplacement(bad == null ? "" : bad));
    assertFalse(spoiled.equals(JOB), "nothing was spoiled");
    String message =
        assertThrows(JobFileException.class, () -> read(spoiled), "was read").getMessage();
    assertTrue(message.contains(words), message);
    assertTrue(message.startsWith("job.json"), message);
  }

  @Test
  void refusesFilesThatAreNoJobs() throws IOException {
    for (String text : new String[] {"", "[]", "{", "null", "{} {}", "\u0000", "[".repeat(5000)}) {
      assertThrows(JobFileException.class, () -> read(text), text);
    }
    assertThrows(JobFileException.class, () -> JobReader.read(folder));
    assertThrows(JobFileException.class, () -> JobReader.read(folder.resolve("none.json")));
    Files.write(folder.resolve("job.json"), new byte[] {'{', (byte) 0xff, '}'});
    assertThrows(JobFileException.class, () -> JobReader.read(folder.resolve("job.json")));
  }

  @Test
  void makesAJobOfOneRecording() {
    Path sound = folder.resolve("one.wav");
    Marking resistor = TRADE.apply("100k");
    Job job = QuickJob.series(sound, resistor, QuickJob.Known.NOTHING);
    assertEquals("bare", job.captures().get(0).id());
    assertEquals("bare", job.captures().get(0).setup());
    assertEquals(
        List.of("input-assumed", "uncalibrated-channels", "tolerance-assumed"), codes(job));
    Job exciter = QuickJob.exciter(sound, QuickJob.Known.NOTHING);
    assertFalse(((Fixture.Exciter) exciter.fixture()).coilFixed());
    assertThrows(
        Refusal.class, () -> QuickJob.exciter(folder.resolve("none.wav"), QuickJob.Known.NOTHING));
  }

  private static final java.util.function.Function<String, Marking> TRADE =
      text -> org.trebleproof.quantity.TradeNotation.marking(text, MarkedQuantity.SERIES_RESISTOR);

  @Test
  void damagedJobsAreReadOrRefused() throws Exception {
    Path file = folder.resolve("job.json");
    for (String text : new String[] {JOB, SERIES}) {
      Mutation.survive(
          text.getBytes(StandardCharsets.UTF_8),
          bytes -> {
            Files.write(file, bytes);
            JobReader.read(file);
          });
    }
  }

  /** 66 to 160 pF per metre, even in the logarithm: 9 m are 594 to 1440 pF. */
  @Test
  void takesALeadByItsLength() throws IOException {
    Part lead =
        read(JOB.replace("\"capacitance\": \"480p 10%\"", "\"length\": \"9 m\""))
            .parts()
            .get("lead");
    Marking marking = lead.marking().orElseThrow();
    assertEquals(594e-12, marking.value() * Math.exp(-marking.tolerance()), 1e-15);
    assertEquals(1440e-12, marking.value() * Math.exp(marking.tolerance()), 1e-15);
    assertFalse(marking.stated());
  }

  @Test
  void readsTemperaturesAndTheHeading() throws IOException {
    Job job =
        read(
            JOB.replace(
                    "\"title\"",
                    "\"customer\": \"A. Player\", \"bench\": \"by the window\", \"title\"")
                .replace(
                    "\"extends\": \"before\"",
                    "\"extends\": \"before\", \"temperature\": \"75.2 F\"")
                .replaceFirst("\"setup\": \"", "\"temperature\": \"19 °C ±0.5 K\", \"setup\": \""));
    Temperature after = job.setups().get("after").temperature().orElseThrow();
    assertEquals(24, after.celsius(), 1e-9);
    assertEquals(Temperature.USUAL_HALF_WIDTH, after.halfWidth());
    assertEquals(Optional.of(new Temperature(19, 0.5, true)), job.captures().get(0).temperature());
    assertEquals(Optional.of("A. Player"), job.heading().customer());
    assertEquals(Optional.empty(), job.heading().instrument());
    assertEquals(Optional.of("by the window"), job.heading().bench());
  }

  /** A reading beside a setup is not another setup's, whose pot is another. */
  @Test
  void leavesReadingsWithTheirSetup() throws IOException {
    String warm =
        JOB.replace(", \"dcResistance\": null", "")
            .replace("\"dcResistance\"", "\"temperature\": \"24 C\", \"dcResistance\"");
    Setup after = read(warm).setups().get("after");
    assertTrue(read(warm).setups().get("before").temperature().isPresent());
    assertEquals(Optional.empty(), after.dcResistance());
    assertEquals(Optional.empty(), after.temperature());
  }
}
