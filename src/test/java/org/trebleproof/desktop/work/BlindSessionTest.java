package org.trebleproof.desktop.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.report.words.ListeningText;

/** A blind test without a stage: what is played, what is said, what it comes to. */
final class BlindSessionTest {

  private static final long SEED = 5;

  private final TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
  private final SimulatedSoundSystem system = new SimulatedSoundSystem();
  private final Listening listening =
      new Listening(board, new Loudspeaker(board, system), LatestWins.atOnce(Runnable::run));
  private final BlindSession session = new BlindSession(listening, () -> SEED);
  private final SignalChain changed =
      GuitarOnTrial.GUITAR.with(
          Trial.THEN, GuitarOnTrial.GUITAR.layout(Optional.empty()), Map.of("volume", "1M"));

  @BeforeEach
  void makeTheSounds() {
    listening.render(
        new Trial.Tried(
            changed,
            GuitarOnTrial.GUITAR.layout(Optional.empty()),
            changed.layout(Optional.of(Trial.THEN)),
            null),
        true);
    assertEquals(Optional.empty(), listening.problemProperty().get());
  }

  /** 7 of 8: 9 of 256 ways of guessing do as well or better. */
  @Test
  void playsTheUnknownOneAndCountsAtTheEndOnly() {
    BlindTest truth = new BlindTest(8, SEED);
    session.begin(8);
    for (int i = 0; i < 8; i++) {
      assertEquals(new BlindSession.Standing(i + 1, 8), session.standingProperty().get().get());
      assertEquals(Optional.empty(), session.scoreProperty().get());
      float[] meant =
          truth.second(i)
              ? listening.soundsProperty().get().get().after()
              : listening.soundsProperty().get().get().before();
      assertTrue(likeness(system.played(), meant) > 0.99, "trial " + (i + 1));
      session.answer(i == 3 ? !truth.second(i) : truth.second(i));
    }
    assertEquals(Optional.empty(), session.standingProperty().get());
    BlindTest.Score score = session.scoreProperty().get().orElseThrow();
    assertEquals(9 / 256.0, score.chance(), 1e-12);
    assertEquals(
        "7 of 8 right; guessing does as well or better in 3.5 % of tests, so you hear it.",
        ListeningText.score(score));
  }

  /** Played back at 16 bits and 40 dB down, from an unknown delay on. */
  private static double likeness(float[] played, float[] meant) {
    double best = 0;
    for (int lag = 0; lag < 32; lag++) {
      double ab = 0;
      double aa = 0;
      double bb = 0;
      for (int i = 9600; i < 24000; i++) {
        ab += played[i + lag] * meant[i];
        aa += played[i + lag] * played[i + lag];
        bb += meant[i] * meant[i];
      }
      best = Math.max(best, ab / Math.sqrt(aa * bb));
    }
    return best;
  }

  @Test
  void aTestGivenUpHasNoResult() {
    session.begin(8);
    session.answer(true);
    session.giveUp();
    assertEquals(Optional.empty(), session.standingProperty().get());
    assertEquals(Optional.empty(), session.scoreProperty().get());
  }

  @Test
  void otherSoundsEndTheTest() {
    session.begin(8);
    listening.forget();
    assertEquals(Optional.empty(), session.standingProperty().get());
    session.begin(8);
    assertEquals(Optional.empty(), session.standingProperty().get());
  }
}
