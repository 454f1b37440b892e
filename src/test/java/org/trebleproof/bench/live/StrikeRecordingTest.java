package org.trebleproof.bench.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.strike.PluckedString;

/** A made-up player in front of a simulated interface. */
final class StrikeRecordingTest {

  private static final int RATE = 48000;
  private static final double APART = 1.5;
  private static final double FIRST = 2;

  /** A hand stops the last one slowly: cut off, it would click like a strike [s]. */
  private static final double RINGING = 3;

  private static final String JOB =
      """
      {
        "trebleproof": 1,
        "title": "made up",
        "fixture": {"kind": "strike", "deviceChannel": 2,
          "input": {"resistance": "1M 1%", "capacitance": "80p 10%"}},
        "parts": {"coil": {"kind": "pickup"}},
        "setups": {"before": {"pickup": "coil"}, "after": {"pickup": "coil"}},
        "captures": []
      }
      """;

  @TempDir Path folder;

  private Path job;
  private final SimulatedSoundSystem system = new SimulatedSoundSystem();
  private final Transport transport = new Transport(system);
  private final List<String> said = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private double share;

  private final LiveListener listener =
      new LiveListener() {
        @Override
        public void step(String sentence) {
          said.add(sentence);
        }

        @Override
        public void levels(List<LevelMeter.Reading> shown, double doneShare) {
          assertEquals(2, shown.size(), "up to the guitar's channel");
          share = doneShare;
        }

        @Override
        public void finding(Finding finding) {
          findings.add(finding);
        }
      };

  @BeforeEach
  void writeJob() throws IOException {
    job = folder.resolve("job.json");
    Files.writeString(job, JOB);
  }

  /** Strikes with hiss, the guitar on the second channel; silence when they are over. */
  private void plays(double strength, double... notes) {
    SplittableRandom random = new SplittableRandom(61);
    float[] x = new float[(int) ((FIRST + APART * notes.length + RINGING) * RATE)];
    for (int i = 0; i < notes.length; i++) {
      PluckedString.add(
          x,
          RATE,
          (int) ((FIRST + APART * i) * RATE),
          new PluckedString.Pluck(notes[i], 5e-5, 0.19, strength),
          f -> 1 / (1 + f * f / 2.5e7),
          random);
    }
    for (int i = 1; i <= RATE; i++) {
      x[x.length - i] *= i / (float) RATE;
    }
    int[] at = {0};
    system.wiring(
        (played, recorded) -> {
          double hiss = 2e-5 * (random.nextDouble() - 0.5);
          recorded[0] = 0;
          recorded[1] = Math.max(-1, Math.min(1, hiss + (at[0] < x.length ? x[at[0]] : 0)));
          at[0]++;
        });
  }

  private StrikeRecorder.Recorded record(String id, String setup, int strikes) {
    JobRecording recording = JobRecording.open(job);
    LiveInput input = LiveInput.choose(system, Optional.empty(), RATE, 2);
    return recording.record(
        new StrikeRecorder(input, transport, listener),
        recording.want(id, Optional.of(setup), List.of(), false),
        strikes);
  }

  private boolean wasSaid(String words) {
    return said.stream().anyMatch(s -> s.contains(words));
  }

  @Test
  void endsByItselfWhenThereAreEnough() throws IOException {
    plays(0.15, 110, 196, 110, 196, 110, 196, 110, 196);
    StrikeRecorder.Recorded recorded = record("before", "before", 6);
    assertEquals("4 × A2, 3 × G3", recorded.reading().said());
    Recording sound = SoundFile.read(folder.resolve("before.wav"));
    assertEquals(24, sound.bits());
    assertEquals(2, sound.channels().length);
    double last = FIRST + 5 * APART;
    // the seventh falls into the time that the sixth is left to ring; it is recorded, not waited on
    assertTrue(sound.seconds() > last + 2 && sound.seconds() < last + 5, "" + sound.seconds());
    assertTrue(Files.readString(job).contains("\"before.wav\""), "named in the job");
    assertTrue(wasSaid("Strike 6 of 6"), said.toString());
    assertTrue(said.get(1).startsWith("Now strike 6"), said.toString());
    assertEquals("Enough: let the last one ring.", said.get(said.size() - 2));
    assertEquals("Usable strikes of before: 4 × A2, 3 × G3.", said.get(said.size() - 1));
    assertEquals(1, share);
    assertFalse(Files.exists(folder.resolve("before.unfinished.wav")));
    assertEquals(0, system.loudest(), "nothing is played");
  }

  /** The setup of the capture's own name needs no word. */
  @Test
  void aCaptureNamedLikeASetupIsOfIt() {
    JobRecording recording = JobRecording.open(job);
    assertEquals("after", recording.want("after", Optional.empty(), List.of(), false).setup());
    assertThrows(Refusal.class, () -> recording.want("other", Optional.empty(), List.of(), false));
  }

  @Test
  void endsWhenThePlayerHasStopped() {
    plays(0.15, 110, 196, 110, 196, 110);
    assertEquals(5, record("before", "before", 18).reading().usable());
    double end = SoundFile.read(folder.resolve("before.wav")).seconds();
    assertEquals(FIRST + 4 * APART + 15, end, 1);
  }

  @Test
  void silenceIsRefusedAndLeavesNothing() throws IOException {
    plays(0.15);
    Refusal refusal = assertThrows(Refusal.class, () -> record("before", "before", 6));
    assertTrue(refusal.getMessage().contains("No pick strike"), refusal.getMessage());
    assertTrue(refusal.getMessage().contains("simulated in"), refusal.getMessage());
    assertEquals(JOB, Files.readString(job));
    assertFalse(Files.exists(folder.resolve("before.wav")));
    assertFalse(Files.exists(folder.resolve("before.unfinished.wav")));
  }

  @Test
  void aClippedStrikeIsToldAtOnce() {
    plays(6, 110, 196, 110, 196);
    assertThrows(Refusal.class, () -> record("before", "before", 4));
    assertTrue(wasSaid("clipped and does not count"), said.toString());
  }

  @Test
  void aQuietGuitarIsTold() {
    plays(0.001, 110, 196, 110, 196);
    record("before", "before", 4);
    assertTrue(wasSaid("quiet, turn the gain up"), said.toString());
  }

  @Test
  void whatTheOtherRecordingHoldsIsProposedAndHeldAgainstIt() {
    plays(0.15, 110, 196, 110, 196);
    record("before", "before", 4);
    plays(0.15, 110, 110, 110, 110);
    record("after", "after", 4);
    assertTrue(wasSaid("\"before\" holds 2 × A2, 2 × G3: strike the same"), said.toString());
    Finding lacking = findings.get(findings.size() - 1);
    assertEquals(FindingCode.STRIKES_NOTES_LACKING, lacking.code());
    assertEquals("G3", lacking.evidence());
  }

  @Test
  void brokenOffItKeepsWhatItHas() throws IOException {
    plays(0.15, 110, 196, 110, 196, 110, 196);
    LiveListener breaking =
        new LiveListener() {
          @Override
          public void step(String sentence) {
            if (sentence.startsWith("Strike 2")) {
              transport.stop();
            }
          }
        };
    JobRecording recording = JobRecording.open(job);
    LiveInput input = LiveInput.choose(system, Optional.empty(), RATE, 2);
    StrikeRecorder recorder = new StrikeRecorder(input, transport, breaking);
    JobRecording.Wanted wanted = recording.want("before", Optional.of("before"), List.of(), false);
    assertThrows(StoppedException.class, () -> recording.record(recorder, wanted, 6));
    assertTrue(Files.exists(folder.resolve("before.unfinished.wav")));
    assertEquals(JOB, Files.readString(job));
    plays(0.15, 110, 196, 110, 196);
    record("before", "before", 4);
    assertTrue(wasSaid("before.saved-1.wav"), said.toString());
  }

  @Test
  void thePlayerEndsItEarlyAndItIsKept() {
    plays(0.15, 110, 196, 110, 196, 110, 196);
    StrikeRecorder[] recorder = {null};
    LiveListener ending =
        new LiveListener() {
          @Override
          public void step(String sentence) {
            if (sentence.startsWith("Strike 4")) {
              recorder[0].finish();
            }
          }
        };
    JobRecording recording = JobRecording.open(job);
    recorder[0] =
        new StrikeRecorder(LiveInput.choose(system, Optional.empty(), RATE, 2), transport, ending);
    JobRecording.Wanted wanted = recording.want("before", Optional.of("before"), List.of(), false);
    assertEquals(4, recording.record(recorder[0], wanted, 18).reading().usable());
  }

  @Test
  void aDevicePulledOutLeavesWhatCame() {
    plays(0.15, 110, 196, 110, 196);
    system.unplugAt(4);
    SoundDeviceException lost =
        assertThrows(SoundDeviceException.class, () -> record("before", "before", 4));
    assertTrue(lost.getMessage().contains("before.unfinished.wav"), lost.getMessage());
    assertTrue(SoundFile.read(folder.resolve("before.unfinished.wav")).seconds() > 3);
  }
}
