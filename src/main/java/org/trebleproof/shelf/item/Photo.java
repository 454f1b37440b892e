package org.trebleproof.shelf.item;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.file.GivenFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.NewCoil.KeptFile;
import org.trebleproof.shelf.item.NewCoil.Role;

/** Pictures of a coil, kept as they are; told by what they begin with, not by their name. */
public final class Photo {

  private Photo() {}

  /**
   * A photo that is to be kept.
   *
   * @throws Refusal if it cannot be read or is none
   */
  public static KeptFile of(Path file) {
    Path from = GivenFile.readable(file, words -> new Refusal(file + " " + words));
    byte[] head;
    try (InputStream in = Files.newInputStream(from)) {
      head = in.readNBytes(12);
    } catch (IOException e) {
      throw new Refusal(file + " could not be read: check its permissions.", e);
    }
    if (!isPicture(new String(head, StandardCharsets.ISO_8859_1))) {
      throw new Refusal(
          file.getFileName() + " is no picture: give a photo as JPEG, PNG, WebP, HEIC or TIFF.");
    }
    return new KeptFile(Role.PHOTO, SoundFile.sha256(from), from);
  }

  /** First bytes as the formats' own specifications give them. */
  private static boolean isPicture(String head) {
    return head.startsWith("\u00ff\u00d8\u00ff")
        || head.startsWith("\u0089PNG\r\n")
        || head.startsWith("RIFF") && head.endsWith("WEBP")
        || head.startsWith("II*\0")
        || head.startsWith("MM\0*")
        || head.startsWith("ftyp", 4);
  }
}
