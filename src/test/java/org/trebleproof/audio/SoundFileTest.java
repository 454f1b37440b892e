package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SoundFileTest {

  @TempDir Path folder;

  static Path reference(String name) {
    return Path.of("src/test/resources/org/trebleproof/audio", name);
  }

  /** Files written by libsndfile; the samples are those of reference_sounds.py, exactly. */
  @ParameterizedTest
  @CsvSource({
    "pcm16.wav, 16, false",
    "pcm24.wav, 24, false",
    "pcm32.wav, 32, false",
    "float32.wav, 32, true",
    "float64.wav, 64, true",
    "extensible24.wav, 24, false",
    "extensible-float.wav, 32, true",
    "pcm24.rf64, 24, false",
    "pcm16.aiff, 16, false",
    "pcm24.aiff, 24, false",
    "float32.aifc, 32, true",
    "float64.aifc, 64, true",
    "little.aifc, 16, false",
    "pcm16.flac, 16, false",
    "pcm24.flac, 24, false"
  })
  void readsWhatAnotherProgramWrote(String name, int bits, boolean floatingPoint) {
    Recording recording = SoundFile.read(reference(name));
    assertEquals(44100, recording.sampleRate());
    assertEquals(bits, recording.bits());
    assertEquals(floatingPoint, recording.floatingPoint());
    assertEquals(2, recording.channels().length);
    assertEquals(257, recording.frames());
    for (int c = 0; c < 2; c++) {
      for (int k = 0; k < 257; k++) {
        int code = ((k + 1) * 7919 + c * 104729) % 65536 - 32768;
        assertEquals(code / 32768f, recording.channel(c + 1)[k], 0, "sample " + k);
      }
    }
  }

  @Test
  void readsPredictedFlac() {
    Recording recording = SoundFile.read(reference("tone.flac"));
    for (int c = 0; c < 2; c++) {
      for (int k = 0; k < 4410; k++) {
        double truth = 0.9 * Math.sin(2 * Math.PI * 441 * k / 44100 + c);
        // half a step of 24 bits for rounding, and another for the writer's choice of it
        assertEquals(truth, recording.channel(c + 1)[k], 0x1p-23);
      }
    }
  }

  /** Published SHA-256 of the three letters "abc": FIPS 180-4 example. */
  @Test
  void hashesTheFile() throws IOException {
    Path file = Files.writeString(folder.resolve("abc"), "abc");
    assertEquals(
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", SoundFile.sha256(file));
  }

  @Test
  void saysWhichChannelIsMissing() {
    Recording mono = new Recording(Path.of("mono.wav"), new float[1][4], 48000, 24, false);
    String message = assertThrows(SoundFileException.class, () -> mono.channel(2)).getMessage();
    assertTrue(message.startsWith("mono.wav: has one channel, but channel 2 is wanted"), message);
  }

  /** RIFF layout: an odd chunk is followed by a pad byte that its size does not count. */
  @Test
  void stepsOverUnknownAndOddChunks() throws IOException {
    Path file = folder.resolve("odd.wav");
    byte[] format = chunk("fmt ", format(1, 1, 48000, 16));
    byte[] data = chunk("data", new byte[] {0, 0x40, 0, (byte) 0xc0});
    Files.write(
        file, riff("RIFF", chunk("JUNK", new byte[5]), format, chunk("note", new byte[3]), data));
    assertArrayEquals(new float[] {0.5f, -0.5f}, SoundFile.read(file).channel(1));
  }

  /** EBU Tech 3306: the 32-bit sizes are all ones and ds64 holds the true ones. */
  @ParameterizedTest
  @ValueSource(strings = {"RF64", "BW64"})
  void readsSizesFromDs64(String id) throws IOException {
    ByteBuffer sizes = little(28 + 12);
    sizes.putLong(200).putLong(4).putLong(2).putInt(1);
    sizes.put("long".getBytes(StandardCharsets.US_ASCII)).putLong(3);
    Path file = folder.resolve("wide.wav");
    byte[] data = chunk("data", new byte[] {0, 0x40, 0, (byte) 0xc0});
    byte[] other = chunk("long", new byte[3]);
    allOnes(data);
    allOnes(other);
    Files.write(
        file,
        riff(
            id, chunk("ds64", sizes.array()), chunk("fmt ", format(1, 1, 48000, 16)), other, data));
    assertArrayEquals(new float[] {0.5f, -0.5f}, SoundFile.read(file).channel(1));
  }

  /** A header of 6 GiB in front of a sparse file of that size: refused before any allocation. */
  @Test
  void refusesMoreThanFitsInMemory() throws IOException {
    long bytes = 6L << 30;
    Path file = folder.resolve("long.wav");
    ByteBuffer sizes = little(28);
    sizes.putLong(bytes + 100).putLong(bytes).putLong(bytes / 2).putInt(0);
    byte[] data = chunk("data", new byte[0]);
    allOnes(data);
    byte[] head =
        riff("RF64", chunk("ds64", sizes.array()), chunk("fmt ", format(1, 1, 48000, 16)), data);
    Files.write(file, head);
    assertRefused(file, "is cut off");
    try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
      sparse.setLength(head.length + bytes);
    }
    assertRefused(file, "too long to hold in memory");
  }

  /** Phones record so; what to do is said, and not that the text is no text. */
  @ParameterizedTest
  @CsvSource({
    "4f67675300020000, an Ogg",
    "49443303000000000000, an MP3",
    "0000001866747970, an M4A"
  })
  void namesOtherKindsOfSound(String hex, String kind) throws IOException {
    byte[] head = java.util.Arrays.copyOf(java.util.HexFormat.of().parseHex(hex), 400);
    Path file = Files.write(folder.resolve("phone.wav"), head);
    assertRefused(file, "is " + kind);
    assertRefused(file, "not WAV, AIFF or FLAC: export it as WAV");
  }

  @Test
  void refusesWhatIsNoSound() throws IOException {
    assertRefused(folder.resolve("missing.wav"), "does not exist");
    assertRefused(folder, "is a folder");
    assertRefused(Files.write(folder.resolve("empty.wav"), new byte[0]), "is empty");
    assertRefused(Files.writeString(folder.resolve("text.wav"), "once upon a time"), "is no WAV");
    assertRefused(reference("eight.wav"), "8 bits");
    assertRefused(reference("compressed.wav"), "is compressed");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "pcm16.wav",
        "pcm24.wav",
        "float64.wav",
        "extensible24.wav",
        "pcm24.rf64",
        "pcm24.aiff",
        "float32.aifc",
        "pcm24.flac",
        "tone.flac"
      })
  void refusesTruncatedFiles(String name) throws IOException {
    byte[] whole = Files.readAllBytes(reference(name));
    for (int length = 1; length < whole.length; length += 1 + whole.length / 97) {
      Path file = Files.write(folder.resolve(name), java.util.Arrays.copyOf(whole, length));
      String message =
          assertThrows(SoundFileException.class, () -> SoundFile.read(file), "at " + length)
              .getMessage();
      assertTrue(message.startsWith(name + ": "), message);
      assertFalse(message.contains("\n"));
    }
  }

  @Test
  void refusesFlacThatDecodesToSomethingElse() throws IOException {
    byte[] whole = Files.readAllBytes(reference("tone.flac"));
    whole[4 + 4 + 18] ^= 1; // the first byte of the MD5 sum
    assertRefused(Files.write(folder.resolve("other.flac"), whole), "is damaged");
  }

  @Test
  void refusesHeadersThatCannotBe() throws IOException {
    assertRefused(wav(format(1, 2, 0, 16), new byte[8]), "sample rate of 0 Hz");
    assertRefused(wav(format(1, 0, 48000, 16), new byte[8]), "0 channels");
    assertRefused(wav(format(1, 2, 48000, 12), new byte[8]), "unusual");
    assertRefused(wav(format(1, 2, 48000, 16), new byte[0]), "holds no sound");
    byte[] unfinished =
        riff("RIFF", chunk("fmt ", format(1, 1, 48000, 16)), chunk("data", new byte[4]));
    for (int size : new int[] {0, -1}) {
      ByteBuffer.wrap(unfinished)
          .order(ByteOrder.LITTLE_ENDIAN)
          .putInt(unfinished.length - 8, size);
      assertRefused(Files.write(folder.resolve("u.wav"), unfinished), "never finished");
    }
    assertRefused(
        Files.write(folder.resolve("d.wav"), riff("RIFF", chunk("data", new byte[4]))),
        "does not say how");
  }

  @ParameterizedTest
  @ValueSource(floats = {Float.NaN, Float.POSITIVE_INFINITY, Float.NEGATIVE_INFINITY})
  void refusesSamplesThatAreNoNumbers(float bad) throws IOException {
    ByteBuffer data = little(24);
    data.putFloat(0).putFloat(0).putFloat(0).putFloat(bad).putFloat(0).putFloat(0);
    assertRefused(wav(format(3, 2, 48000, 32), data.array()), "(channel 2, sample 2)");
  }

  private Path wav(byte[] format, byte[] data) throws IOException {
    return Files.write(
        folder.resolve("made.wav"), riff("RIFF", chunk("fmt ", format), chunk("data", data)));
  }

  private static void assertRefused(Path file, String words) {
    String message =
        assertThrows(SoundFileException.class, () -> SoundFile.read(file)).getMessage();
    assertTrue(message.contains(words), message);
    assertTrue(message.startsWith(file.getFileName() + ": "), message);
  }

  private static byte[] format(int tag, int channels, int rate, int bits) {
    int frame = channels * bits / 8;
    ByteBuffer format = little(16);
    format.putShort((short) tag).putShort((short) channels).putInt(rate).putInt(rate * frame);
    return format.putShort((short) frame).putShort((short) bits).array();
  }

  private static byte[] riff(String id, byte[]... chunks) {
    int size = 4;
    for (byte[] chunk : chunks) {
      size += chunk.length;
    }
    ByteBuffer whole = little(8 + size);
    whole.put(id.getBytes(StandardCharsets.US_ASCII)).putInt(id.equals("RIFF") ? size : -1);
    whole.put("WAVE".getBytes(StandardCharsets.US_ASCII));
    for (byte[] chunk : chunks) {
      whole.put(chunk);
    }
    return whole.array();
  }

  private static byte[] chunk(String id, byte[] content) {
    ByteBuffer chunk = little(8 + content.length + content.length % 2);
    chunk.put(id.getBytes(StandardCharsets.US_ASCII)).putInt(content.length).put(content);
    return chunk.array();
  }

  private static void allOnes(byte[] chunk) {
    java.util.Arrays.fill(chunk, 4, 8, (byte) 0xff);
  }

  private static ByteBuffer little(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }
}
