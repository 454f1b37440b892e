package org.trebleproof.audio;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.trebleproof.file.GivenFile;
import org.trebleproof.file.KnownContent;

/**
 * Reads WAV (RIFF, RF64, BW64), AIFF, AIFC and FLAC files, told apart by their first bytes, never
 * by their name.
 *
 * <p>A file is refused rather than repaired: truncated or unfinished files, sample rates and sizes
 * that cannot be, samples that are no numbers. Memory is one float per sample; a file that would
 * not fit is refused before anything is allocated.
 */
public final class SoundFile {

  private static final int BLOCK = 1 << 16;

  private SoundFile() {}

  /**
   * Reads a whole file.
   *
   * @throws SoundFileException if it cannot be used, in one sentence
   */
  public static Recording read(Path file) {
    Path from = GivenFile.readable(file, words -> new SoundFileException(file, words));
    try (FileChannel channel = FileChannel.open(from, StandardOpenOption.READ)) {
      ByteSource source = new ByteSource(file, channel);
      if (source.size() == 0) {
        throw new SoundFileException(file, "is empty: record it again.");
      }
      if (source.size() < 12) {
        throw notSound(file, from);
      }
      String id = source.id();
      return switch (id) {
        case "RIFF", "RF64", "BW64" -> new WavReader(source, id).read();
        case "FORM" -> new AiffReader(source).read();
        case "fLaC" -> new FlacReader(source).read();
        case "RIFX" ->
            throw new SoundFileException(
                file, "is a big-endian WAV file: save it again as plain WAV.");
        default -> throw notSound(file, from);
      };
    } catch (AccessDeniedException e) {
      throw new SoundFileException(file, "may not be read: check its permissions.", e);
    } catch (IOException e) {
      throw new SoundFileException(
          file, "could not be read to its end: copy it again from the recorder.", e);
    }
  }

  /**
   * SHA-256 of the file, lower-case hex.
   *
   * @throws SoundFileException if it cannot be read
   */
  public static String sha256(Path file) {
    Path from = GivenFile.readable(file, words -> new SoundFileException(file, words));
    try (FileChannel channel = FileChannel.open(from, StandardOpenOption.READ)) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      ByteSource source = new ByteSource(file, channel);
      byte[] block = new byte[BLOCK];
      for (long left = source.size(); left > 0; ) {
        int count = (int) Math.min(left, block.length);
        source.bytes(block, count);
        digest.update(block, 0, count);
        left -= count;
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (IOException e) {
      throw new SoundFileException(file, "could not be read: check that it is still there.", e);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static SoundFileException notSound(Path file, Path from) {
    return new SoundFileException(
        file,
        KnownContent.of(from)
            .filter(kind -> !kind.isRead())
            .map(KnownContent::exportIt)
            .orElse("is no WAV, AIFF or FLAC file: export the recording as WAV, 24 bits."));
  }
}
