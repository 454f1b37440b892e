package org.trebleproof.audio;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Optional;
import org.trebleproof.file.FileState;
import org.trebleproof.file.GivenFile;
import org.trebleproof.file.KnownContent;

/**
 * Reads WAV (RIFF, RF64, BW64), AIFF, AIFC and FLAC files, told apart by their first bytes, never
 * by their name.
 *
 * <p>A file is refused rather than repaired: truncated or unfinished files, sample rates and sizes
 * that cannot be, samples that are no numbers. In memory a file takes one float per sample; one
 * that would not fit is refused before anything is allocated, or read piece by piece.
 */
public final class SoundFile {

  private static final int BLOCK = 1 << 16;
  private static final KnownHashes HASHES = new KnownHashes();

  private SoundFile() {}

  /**
   * Reads a whole file.
   *
   * @throws SoundFileException if it cannot be used, in one sentence
   */
  public static Recording read(Path file) {
    CollectingSink all = new CollectingSink(file);
    read(file, all);
    return all.recording();
  }

  /**
   * Reads a file piece by piece.
   *
   * @param sink takes the pieces; the file is examined to its end unless it has enough before
   * @throws SoundFileException if it cannot be used, in one sentence; some pieces may have been
   *     handed over by then
   */
  public static void read(Path file, SoundSink sink) {
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
      switch (id) {
        case "RIFF", "RF64", "BW64" -> new WavReader(source, id).read(sink);
        case "FORM" -> new AiffReader(source).read(sink);
        case "fLaC" -> new FlacReader(source).read(sink);
        case "RIFX" ->
            throw new SoundFileException(
                file, "is a big-endian WAV file: save it again as plain WAV.");
        default -> throw notSound(file, from);
      }
    } catch (AccessDeniedException e) {
      throw new SoundFileException(file, "may not be read: check its permissions.", e);
    } catch (IOException e) {
      throw new SoundFileException(
          file, "could not be read to its end: copy it again from the recorder.", e);
    }
  }

  /**
   * SHA-256 of the file, lower-case hex. A file that was read for it before, and that nothing has
   * touched since, is not read again.
   *
   * @throws SoundFileException if it cannot be read
   */
  public static String sha256(Path file) {
    Optional<String> known = knownSha256(file);
    if (known.isPresent()) {
      return known.get();
    }
    Optional<FileState> before = FileState.of(file);
    FileTime now = FileTime.from(Instant.now());
    String sha256 = read256(file);
    HASHES.learn(file, before, now, sha256);
    return sha256;
  }

  /** The same where it is known without reading. */
  public static Optional<String> knownSha256(Path file) {
    return HASHES.of(file);
  }

  private static String read256(Path file) {
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
