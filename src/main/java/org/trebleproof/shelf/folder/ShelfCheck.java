package org.trebleproof.shelf.folder;

import java.io.IOException;
import java.io.OutputStream;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * Whether all that a shelf keeps is still what was put on it.
 *
 * @param files that were looked at
 * @param damaged coils of which a file is no longer what it was
 */
public record ShelfCheck(int files, List<String> damaged) {

  public static ShelfCheck of(ShelfStore store) throws IOException {
    List<String> hashes = store.contents();
    List<String> damaged = new ArrayList<>();
    for (String hash : hashes) {
      MessageDigest digest = sha256();
      store.content(hash, new DigestOutputStream(OutputStream.nullOutputStream(), digest));
      if (!HexFormat.of().formatHex(digest.digest()).equals(hash)) {
        damaged.addAll(store.usedBy(hash));
      }
    }
    return new ShelfCheck(hashes.size(), damaged.stream().distinct().toList());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
