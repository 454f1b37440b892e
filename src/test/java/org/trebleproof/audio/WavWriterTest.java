package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.trebleproof.file.WholeFile;
import org.trebleproof.quantity.Refusal;

class WavWriterTest {

  @TempDir Path folder;

  private static float[][] noise(int channels, int frames) {
    Random random = new Random(5);
    float[][] noise = new float[channels][frames];
    for (float[] channel : noise) {
      for (int i = 0; i < frames; i++) {
        channel[i] = 2 * random.nextFloat() - 1;
      }
    }
    return noise;
  }

  /** The longest of these crosses the block borders of reader and writer. */
  @ParameterizedTest
  @EnumSource(WavWriter.Encoding.class)
  void comesBackAsItWentOut(WavWriter.Encoding encoding) {
    double step =
        switch (encoding) {
          case PCM16 -> 0x1p-15;
          case PCM24 -> 0x1p-23;
          case FLOAT32 -> 0;
        };
    for (int frames : new int[] {1, 3, 4097, 40001}) {
      for (int channels : new int[] {1, 2, 3}) {
        float[][] sound = noise(channels, frames);
        sound[0][0] = 1;
        Path file = folder.resolve("sound.wav");
        WavWriter.write(file, sound, 44100, encoding);
        Recording back = SoundFile.read(file);
        assertEquals(44100, back.sampleRate());
        assertEquals(frames, back.frames());
        assertEquals(channels, back.channels().length);
        for (int c = 0; c < channels; c++) {
          for (int i = 0; i < frames; i++) {
            // rounding is half a step; full scale itself falls short by a whole one
            assertEquals(
                sound[c][i], back.channels()[c][i], sound[c][i] > 1 - step ? step : step / 2);
          }
        }
      }
    }
  }

  /** The JDK's own reader agrees on the format and the bytes. */
  @Test
  void theJdkReadsIt() throws Exception {
    Path file = folder.resolve("sound.wav");
    WavWriter.write(file, new float[][] {{0.5f, -0.25f, 0}}, 48000, WavWriter.Encoding.PCM24);
    try (AudioInputStream in = AudioSystem.getAudioInputStream(file.toFile())) {
      assertEquals(24, in.getFormat().getSampleSizeInBits());
      assertEquals(3, in.getFrameLength());
      org.junit.jupiter.api.Assertions.assertArrayEquals(
          new byte[] {0, 0, 0x40, 0, 0, (byte) 0xe0, 0, 0, 0}, in.readAllBytes());
    }
  }

  @Test
  void refusesWhatPcmCannotHold() {
    Path file = folder.resolve("sound.wav");
    for (float bad : new float[] {1.001f, -1.001f, Float.NaN}) {
      assertThrows(
          IllegalArgumentException.class,
          () -> WavWriter.write(file, new float[][] {{bad}}, 48000, WavWriter.Encoding.PCM16));
    }
    assertTrue(Files.notExists(file));
  }

  @Test
  void leavesTheOldFileWhenWritingFails() throws IOException {
    Path file = Files.writeString(folder.resolve("page.html"), "old");
    assertThrows(
        Refusal.class,
        () ->
            WholeFile.write(
                file,
                out -> {
                  out.write(1);
                  throw new IOException("disk full");
                }));
    assertThrows(
        IllegalStateException.class,
        () ->
            WholeFile.write(
                file,
                out -> {
                  throw new IllegalStateException("a slip");
                }));
    assertEquals("old", Files.readString(file));
    try (Stream<Path> left = Files.list(folder)) {
      assertEquals(List.of(file), left.toList());
    }
    WholeFile.writeText(file, "new µ");
    assertEquals("new µ", Files.readString(file));
  }

  @Test
  void saysWhenTheFolderIsMissing() {
    Path file = folder.resolve("none").resolve("page.html");
    String message = assertThrows(Refusal.class, () -> WholeFile.writeText(file, "x")).getMessage();
    assertTrue(message.contains("there is no folder"), message);
    assertThrows(Refusal.class, () -> WholeFile.checkPlace(folder));
  }

  @Test
  void closesWhatItReads() throws IOException {
    Path file = folder.resolve("sound.wav");
    WavWriter.write(file, noise(1, 10), 48000, WavWriter.Encoding.FLOAT32);
    SoundFile.read(file);
    try (InputStream in = Files.newInputStream(file)) {
      // fmt of 18 bytes and fact, as every format but PCM has
      assertEquals(12 + 8 + 18 + 8 + 4 + 8 + 40, in.readAllBytes().length);
    }
  }
}
