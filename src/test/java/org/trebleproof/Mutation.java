package org.trebleproof;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.trebleproof.quantity.Refusal;

/**
 * Seeded damage for the readers: each must answer with a value or with a refusal of one line, and
 * with nothing else.
 */
public final class Mutation {

  private static final long SEED = 20261125;

  /** Lengths and counts that readers have stumbled over. */
  private static final long[] NASTY = {
    0, 1, -1, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x7fffffffL, 0x80000000L, 0xffffffffL
  };

  private Mutation() {}

  /** A case under test: reads some bytes or refuses them. */
  public interface Reader {
    void read(byte[] bytes) throws Exception;
  }

  /** Reads damaged copies of {@code sound}, half of them damaged only near the start. */
  public static void survive(byte[] sound, Reader reader) throws Exception {
    int cases = Integer.getInteger("fuzz.cases", 1000);
    for (int i = 0; i < cases; i++) {
      Random random = new Random(SEED + i);
      byte[] damaged = damage(sound, random);
      try {
        reader.read(damaged);
      } catch (Refusal e) {
        oneLine(e, i);
      } catch (Exception | StackOverflowError e) {
        throw new AssertionError("seed " + (SEED + i) + " ended in " + e, e);
      }
    }
  }

  private static void oneLine(Refusal e, int i) {
    String message = e.getMessage();
    if (message.isBlank()
        || message.length() > 600
        || message.codePoints().anyMatch(Character::isISOControl)) {
      throw new AssertionError("seed " + (SEED + i) + ": no plain sentence: " + message, e);
    }
  }

  private static byte[] damage(byte[] sound, Random random) {
    byte[] bytes = sound.clone();
    int rounds = 1 + random.nextInt(4);
    for (int r = 0; r < rounds && bytes.length > 0; r++) {
      int reach = random.nextBoolean() ? bytes.length : Math.min(bytes.length, 64);
      int at = random.nextInt(reach);
      switch (random.nextInt(7)) {
        case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
        case 1 -> bytes[at] = (byte) random.nextInt(256);
        case 2 -> bytes = java.util.Arrays.copyOf(bytes, at);
        case 3 -> write(bytes, at, NASTY[random.nextInt(NASTY.length)], 4, random.nextBoolean());
        case 4 -> write(bytes, at, NASTY[random.nextInt(NASTY.length)], 2, random.nextBoolean());
        case 5 -> bytes = spliced(bytes, at, random);
        default -> bytes = insert(bytes, at, TOKENS[random.nextInt(TOKENS.length)]);
      }
    }
    return bytes;
  }

  private static final String[] TOKENS = {
    "\"",
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "null",
    "-1",
    "1e999",
    "0",
    "\\u0000",
    "\n",
    "%",
    "µ",
    "Ω",
    "true",
    "\"\"",
    "data",
    "fmt ",
    "ds64",
    "k",
    "M",
    "22 kF",
    "{\"a\":",
    "-",
    ".",
    "\ud83c\udfb8"
  };

  private static void write(byte[] bytes, int at, long value, int count, boolean big) {
    for (int i = 0; i < count && at + i < bytes.length; i++) {
      bytes[at + i] = (byte) (value >> 8 * (big ? count - 1 - i : i));
    }
  }

  private static byte[] insert(byte[] bytes, int at, String token) {
    byte[] extra = token.getBytes(StandardCharsets.UTF_8);
    byte[] longer = new byte[bytes.length + extra.length];
    System.arraycopy(bytes, 0, longer, 0, at);
    System.arraycopy(extra, 0, longer, at, extra.length);
    System.arraycopy(bytes, at, longer, at + extra.length, bytes.length - at);
    return longer;
  }

  /** A stretch of the file copied over another, or cut out. */
  private static byte[] spliced(byte[] bytes, int at, Random random) {
    int length = Math.min(1 + random.nextInt(40), bytes.length - at);
    if (random.nextBoolean()) {
      int from = random.nextInt(bytes.length - length + 1);
      System.arraycopy(bytes, from, bytes, at, length);
      return bytes;
    }
    byte[] shorter = new byte[bytes.length - length];
    System.arraycopy(bytes, 0, shorter, 0, at);
    System.arraycopy(bytes, at + length, shorter, at, bytes.length - at - length);
    return shorter;
  }
}
