package org.trebleproof.signal.strike;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Single recorded notes out of two kinds of instrument file: SoundFont 2 (chunks {@code smpl} and
 * {@code shdr}; SoundFont Technical Specification 2.04, section 7.10) and Gravis patch (239 bytes
 * of header, then 96 bytes before each sample; from memory, checked against Debian's freepats).
 * Only 16-bit mono samples are read.
 */
public final class InstrumentSamples {

  public static final Path SOUND_FONT = Path.of("/usr/share/sounds/sf2/FluidR3_GM.sf2");
  public static final Path PATCHES = Path.of("/usr/share/midi/freepats/Tone_000");

  private InstrumentSamples() {}

  /** A note: its samples, rate, and the pitch its file declares (0 when none). */
  public record Note(String name, float[] samples, double rate, double declaredHz) {}

  /** Samples of a SoundFont by name. */
  public static Map<String, Note> soundFont(Path file) throws IOException {
    ByteBuffer data = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
    int smpl = chunk(data, "smpl", 0);
    int shdr = chunk(data, "shdr", smpl + data.getInt(smpl - 4));
    Map<String, Note> notes = new LinkedHashMap<>();
    for (int at = shdr; at + 46 <= shdr + data.getInt(shdr - 4); at += 46) {
      String name = text(data, at, 20);
      int start = data.getInt(at + 20);
      int end = data.getInt(at + 24);
      notes.putIfAbsent(
          name,
          new Note(name, samples(data, smpl + 2 * start, end - start), data.getInt(at + 36), 0));
    }
    return notes;
  }

  private static int chunk(ByteBuffer data, String id, int from) {
    byte[] wanted = id.getBytes(StandardCharsets.US_ASCII);
    for (int i = from; i < data.capacity() - 8; i++) {
      if (data.get(i) == wanted[0]
          && data.get(i + 1) == wanted[1]
          && data.get(i + 2) == wanted[2]
          && data.get(i + 3) == wanted[3]) {
        return i + 8;
      }
    }
    throw new IllegalArgumentException("no chunk " + id);
  }

  /** Samples of a patch by name. */
  public static Map<String, Note> patch(Path file) throws IOException {
    ByteBuffer data = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
    Map<String, Note> notes = new LinkedHashMap<>();
    for (int at = 239; at + 96 <= data.capacity(); ) {
      int size = data.getInt(at + 8);
      double root = data.getInt(at + 30) / 1000.0;
      String name = text(data, at, 7) + " " + Math.round(root);
      int rate = data.getShort(at + 20) & 0xffff;
      notes.put(name, new Note(name, samples(data, at + 96, size / 2), rate, root));
      at += 96 + size;
    }
    return notes;
  }

  private static float[] samples(ByteBuffer data, int from, int count) {
    float[] samples = new float[Math.max(0, count)];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = data.getShort(from + 2 * i) / 32768f;
    }
    return samples;
  }

  private static String text(ByteBuffer data, int at, int length) {
    StringBuilder text = new StringBuilder();
    for (int i = at; i < at + length && data.get(i) != 0; i++) {
      text.append((char) (data.get(i) & 0xff));
    }
    return text.toString();
  }
}
