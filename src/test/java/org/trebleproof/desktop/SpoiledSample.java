package org.trebleproof.desktop;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;

/** The pot swap with one recording overdriven. */
final class SpoiledSample {

  private SpoiledSample() {}

  /** Makes the sample in a new folder, which it returns. */
  static Path clippedIn(Path folder) throws IOException {
    Path sample = Path.of("sample-captures/pot-swap");
    Files.createDirectories(folder);
    try (Stream<Path> files = Files.list(sample)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".flac")).toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    String job = Files.readString(sample.resolve("job.json"));
    Files.writeString(folder.resolve("job.json"), job.replace("after.flac", "after.wav"));
    Recording after = SoundFile.read(sample.resolve("after.flac"));
    float[][] channels = after.channels();
    float top = 0;
    for (float v : channels[1]) {
      top = Math.max(top, Math.abs(v));
    }
    for (int i = 0; i < channels[1].length; i++) {
      channels[1][i] = Math.max(-1, Math.min(1, 3 * channels[1][i] / top));
    }
    WavWriter.write(
        folder.resolve("after.wav"), channels, (int) after.sampleRate(), WavWriter.Encoding.PCM24);
    return folder;
  }
}
