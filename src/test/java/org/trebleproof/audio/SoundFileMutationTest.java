package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.Mutation;

class SoundFileMutationTest {

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "pcm24.wav",
        "extensible-float.wav",
        "pcm24.rf64",
        "pcm16.aiff",
        "float32.aifc",
        "pcm16.flac",
        "tone.flac"
      })
  void damagedFilesAreReadOrRefused(String name) throws Exception {
    byte[] sound = Files.readAllBytes(SoundFileTest.reference(name));
    Path file = folder.resolve(name);
    Mutation.survive(
        sound,
        bytes -> {
          Files.write(file, bytes);
          SoundFile.read(file);
        });
  }

  /**
   * Single bits of a file with check sums, and of a plain header, either do not matter or are
   * missed. Left out are a header's bits that nothing else in the file repeats.
   */
  @ParameterizedTest
  @CsvSource({"pcm16.flac, 100000", "pcm24.flac, 100000", "tone.flac, 3000", "pcm24.wav, 44"})
  void noFlippedBitGivesAnotherAnswer(String name, int reach) throws Exception {
    byte[] sound = Files.readAllBytes(SoundFileTest.reference(name));
    Recording whole = SoundFile.read(SoundFileTest.reference(name));
    Path file = folder.resolve(name);
    int step = 1 + 8 * Math.min(reach, sound.length) / 1000;
    for (int bit = 0; bit < 8 * Math.min(reach, sound.length); bit += step) {
      byte[] damaged = sound.clone();
      damaged[bit / 8] ^= (byte) (1 << bit % 8);
      Files.write(file, damaged);
      try {
        Recording other = SoundFile.read(file);
        assertEquals(whole.sampleRate(), other.sampleRate(), "bit " + bit);
        assertEquals(whole.bits(), other.bits(), "bit " + bit);
        assertArrayEquals(whole.channels(), other.channels(), "bit " + bit);
      } catch (SoundFileException e) {
        continue;
      }
    }
  }
}
