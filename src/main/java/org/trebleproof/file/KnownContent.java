package org.trebleproof.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import org.trebleproof.quantity.Refusal;

/**
 * What a file's first bytes say it is, whatever its name. Sources: RIFF and AIFF as their readers
 * say; FLAC: RFC 9639; Ogg: RFC 3533; MP3 and AAC frames: ISO/IEC 11172-3 and 13818-7, the tag in
 * front: ID3v2.4.0; M4A: ISO/IEC 14496-12; Matroska: RFC 9559; CAF: Core Audio Format 1.0, AMR: RFC
 * 4867, both from memory.
 */
public enum KnownContent {
  WAV("WAV"),
  AIFF("AIFF"),
  FLAC("FLAC"),
  OGG("Ogg"),
  MP3("MP3"),
  AAC("AAC"),
  M4A("M4A or MP4"),
  CAF("CAF"),
  AMR("AMR"),
  MATROSKA("Matroska or WebM");

  private static final int HEAD = 12;

  private final String words;

  KnownContent(String words) {
    this.words = words;
  }

  /** Its usual name. */
  public String words() {
    return words;
  }

  /** Whether sound of this kind is read here. */
  public boolean isRead() {
    return this == WAV || this == AIFF || this == FLAC;
  }

  /** What to do with a recording of a kind that is not read here, after the file's name. */
  public String exportIt() {
    return "is "
        + (this != CAF && this != MATROSKA ? "an " : "a ")
        + words
        + " file, not WAV, AIFF or FLAC: export it as WAV, 24 bits.";
  }

  /** The kind of a file; empty where it is another, or cannot be read. */
  public static Optional<KnownContent> of(Path file) {
    if (!Files.isRegularFile(file)) {
      return Optional.empty(); // a pipe is not opened for a look: what it gives is given once
    }
    ByteBuffer head = ByteBuffer.allocate(HEAD);
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      while (head.hasRemaining() && channel.read(head) > 0) {
        // a short file leaves the rest zero
        continue;
      }
    } catch (IOException e) {
      return Optional.empty();
    }
    return of(head.array());
  }

  /** The kind of a file, or of what comes through a pipe, which is kept aside for that. */
  public static Optional<KnownContent> ofGiven(Path file) {
    try {
      return of(GivenFile.readable(file, Refusal::new));
    } catch (Refusal e) {
      return Optional.empty(); // whoever reads it says why not
    }
  }

  /** The kind of a file that begins with these bytes, at least twelve. */
  public static Optional<KnownContent> of(byte[] head) {
    String first = new String(head, 0, HEAD, StandardCharsets.ISO_8859_1);
    String id = first.substring(0, 4);
    KnownContent kind =
        switch (id) {
          case "RIFF", "RIFX", "RF64", "BW64" -> WAV;
          case "FORM" -> AIFF;
          case "fLaC" -> FLAC;
          case "OggS" -> OGG;
          case "caff" -> CAF;
          case "#!AM" -> AMR;
          case "\u001aE\u00df\u00a3" -> MATROSKA;
          default -> null;
        };
    if (kind != null) {
      return Optional.of(kind);
    }
    if (first.startsWith("ftyp", 4)) {
      return Optional.of(M4A);
    }
    return first.startsWith("ID3") || isLayerThree(head)
        ? Optional.of(MP3)
        : isTransportStream(head) ? Optional.of(AAC) : Optional.empty();
  }

  /** Eleven ones, layer III, a bit rate and a sample rate that are none of the forbidden ones. */
  private static boolean isLayerThree(byte[] head) {
    int version = head[1] >> 3 & 3;
    return head[0] == (byte) 0xff
        && (head[1] & 0xe6) == 0xe2
        && version != 1
        && (head[2] & 0xf0) != 0xf0
        && (head[2] & 0x0c) != 0x0c;
  }

  /** Twelve ones and layer 0. */
  private static boolean isTransportStream(byte[] head) {
    return head[0] == (byte) 0xff && (head[1] & 0xf6) == 0xf0 && (head[2] & 0x3c) <= 0x30;
  }
}
