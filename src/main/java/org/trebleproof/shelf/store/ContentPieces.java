package org.trebleproof.shelf.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.NewCoil;

/** Files in the store, byte for byte, in pieces small enough to be handled one at a time. */
final class ContentPieces {

  private static final int PIECE = 1 << 20;

  private ContentPieces() {}

  static void write(Handle h, NewCoil.KeptFile file) {
    // What was measured is what is kept: read for its hash, unless nothing has touched it since.
    Optional<MessageDigest> digest = isKnown(file) ? Optional.empty() : Optional.of(sha256());
    h.createUpdate("INSERT INTO content (sha256, size) VALUES (:sha, :size)")
        .bind("sha", file.sha256())
        .bind("size", 0L)
        .execute();
    long size = 0;
    try (InputStream in = Files.newInputStream(file.from())) {
      int number = 0;
      for (byte[] piece = in.readNBytes(PIECE); piece.length > 0; piece = in.readNBytes(PIECE)) {
        if (digest.isPresent()) {
          digest.get().update(piece);
        }
        size += piece.length;
        h.createUpdate(
                "INSERT INTO content_piece (sha256, number, bytes) VALUES (:sha, :number, :bytes)")
            .bind("sha", file.sha256())
            .bind("number", number++)
            .bind("bytes", piece)
            .execute();
      }
    } catch (IOException e) {
      throw new Refusal(
          file.from() + " could not be read any more (" + FileTrouble.reason(e) + ").", e);
    }
    boolean same =
        digest
            .map(d -> HexFormat.of().formatHex(d.digest()).equals(file.sha256()))
            .orElseGet(() -> isKnown(file));
    if (!same) {
      throw new Refusal(
          file.from() + " was changed while it was measured: wait until it is whole, try again.");
    }
    h.createUpdate("UPDATE content SET size = :size WHERE sha256 = :sha")
        .bind("size", size)
        .bind("sha", file.sha256())
        .execute();
  }

  private static boolean isKnown(NewCoil.KeptFile file) {
    return SoundFile.knownSha256(file.from()).filter(file.sha256()::equals).isPresent();
  }

  /** Writes the pieces in order, one at a time. */
  static void read(Handle h, String sha256, OutputStream to) throws IOException {
    int count =
        h.createQuery("SELECT COUNT(*) FROM content_piece WHERE sha256 = :sha")
            .bind("sha", sha256)
            .mapTo(Integer.class)
            .one();
    for (int number = 0; number < count; number++) {
      byte[] piece =
          h.createQuery("SELECT bytes FROM content_piece WHERE sha256 = :sha AND number = :number")
              .bind("sha", sha256)
              .bind("number", number)
              .map((rs, ctx) -> rs.getBytes(1))
              .findOne()
              .orElse(new byte[0]);
      to.write(piece);
    }
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
