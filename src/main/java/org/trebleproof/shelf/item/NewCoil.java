package org.trebleproof.shelf.item;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

/**
 * A measurement that is to be put on the shelf.
 *
 * @param name wanted for the coil
 * @param again whether a coil of that name is measured once more; else the name has to be free
 * @param recipe after which it was wound; empty for none
 * @param tags that it gets
 * @param notes on it; empty for none
 * @param circumstances of the measurement
 * @param job as a job file holds it, naming the files below
 * @param files recordings and whatever else the job reads, by the name in the job
 */
public record NewCoil(
    String name,
    boolean again,
    String recipe,
    List<String> tags,
    String notes,
    Circumstances circumstances,
    String job,
    Map<String, KeptFile> files) {

  /**
   * A file that belongs to a measurement.
   *
   * @param role what it is
   * @param sha256 of its bytes, lower-case hex
   * @param from where it lies now
   */
  public record KeptFile(Role role, String sha256, Path from) {}

  /** What a kept file is; the word is its name in the store. */
  public enum Role {
    RECORDING("recording"),
    /** A calibration, the sweep that was played, a loopback. */
    BENCH("bench"),
    PHOTO("photo");

    private final String word;

    Role(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }

    public static Role of(String word) {
      return Arrays.stream(values()).filter(r -> r.word.equals(word)).findFirst().orElse(PHOTO);
    }
  }

  /** By what the same measurement is known again: its recordings, whatever they are called. */
  public String recordings() {
    List<String> hashes =
        files.values().stream()
            .filter(f -> f.role() == Role.RECORDING)
            .map(KeptFile::sha256)
            .sorted()
            .distinct()
            .toList();
    return hashes.size() == 1 ? hashes.get(0) : sha256(String.join(" ", hashes));
  }

  private static String sha256(String text) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** The same coil under another name. */
  public NewCoil named(String other) {
    return named(other, again);
  }

  /** The same under another name, which is that of a coil that is measured again or is not. */
  public NewCoil named(String other, boolean isThere) {
    return new NewCoil(other, isThere, recipe, tags, notes, circumstances, job, files);
  }
}
