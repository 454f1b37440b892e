package org.trebleproof.cli.mod;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.live.Speaker;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;

/**
 * A blind test in the terminal. With a loudspeaker each trial is played, as often as wanted;
 * without one the unknown sound is written to a file that is the same for every trial. The order is
 * kept in memory only, so that nothing gives it away.
 */
final class BlindListening {
  private final Rendering sounds;
  private final Path folder;
  private final Optional<Speaker> speaker;
  private final BufferedReader answers;
  private final Terminal terminal;

  BlindListening(
      Rendering sounds,
      Path folder,
      Optional<Speaker> speaker,
      BufferedReader answers,
      Terminal terminal) {
    this.sounds = sounds;
    this.folder = folder;
    this.speaker = speaker;
    this.answers = answers;
    this.terminal = terminal;
  }

  /** What was said at each trial: whether it is the sound after the change. */
  List<Boolean> run(BlindTest test) throws IOException {
    speaker.ifPresent(
        s ->
            terminal.complain(
                "Playing on "
                    + s.name()
                    + ", 20 dB down to begin with: turn your amplifier down first, then up as far as"
                    + " is pleasant. Type x to hear the unknown sound again, 1 for before, 2 for"
                    + " after, + or - for the level, and b or a when you know it."));
    List<Boolean> said = new ArrayList<>();
    for (int i = 0; i < test.trials(); i++) {
      float[] unknown = test.second(i) ? sounds.after() : sounds.before();
      said.add(trial(i, test.trials(), unknown));
    }
    if (speaker.isEmpty()) {
      Files.deleteIfExists(file());
    }
    return said;
  }

  private Path file() {
    return folder.resolve("x.wav");
  }

  private boolean trial(int number, int trials, float[] unknown) throws IOException {
    if (speaker.isPresent()) {
      terminal.complain(
          String.format(
              Locale.ROOT, "Trial %d of %d: before (b) or after (a)?", number + 1, trials));
      speaker.get().play(unknown);
    } else {
      WavWriter.write(file(), new float[][] {unknown}, sounds.rate(), WavWriter.Encoding.PCM24);
      terminal.complain(
          String.format(
              Locale.ROOT,
              "Trial %d of %d: play x.wav; is it before.wav (b) or after.wav (a)?",
              number + 1,
              trials));
    }
    while (true) {
      String line = answers.readLine();
      if (line == null) {
        throw new WrongUsage(
            "the answers ended at trial " + (number + 1) + "; start the test again");
      }
      String word = line.strip().toLowerCase(Locale.ROOT);
      if (word.equals("a") || word.equals("b")) {
        return word.equals("a");
      }
      if (speaker.isEmpty() || !played(word, unknown)) {
        terminal.complain(
            speaker.isEmpty() ? "Type b or a." : "Type b or a; x, 1 or 2 to hear; + or - to turn.");
      }
    }
  }

  /** Whether a word asked for something to hear. */
  private boolean played(String word, float[] unknown) {
    Speaker s = speaker.orElseThrow();
    switch (word) {
      case "x" -> s.play(unknown);
      case "1" -> s.play(sounds.before());
      case "2" -> s.play(sounds.after());
      case "+", "-" ->
          terminal.complain(
              String.format(Locale.ROOT, "%.0f dB below full level.", -s.turn(word.equals("+"))));
      default -> {
        return false;
      }
    }
    return true;
  }
}
