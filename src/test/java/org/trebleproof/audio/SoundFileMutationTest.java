package org.trebleproof.audio;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
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
}
