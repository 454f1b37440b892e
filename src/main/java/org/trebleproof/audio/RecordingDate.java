package org.trebleproof.audio;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * When something was recorded: the day that the recording itself names, else that of its file. A
 * file's day is that of its last change, which a copy may make later than the recording.
 *
 * <p>A WAV names it in its {@code bext} chunk (EBU Tech 3285, Broadcast Wave Format:
 * OriginationDate after 256 + 32 + 32 bytes, ten characters) or as {@code ICRD} in its {@code LIST
 * INFO} (Multimedia Programming Interface and Data Specifications 1.0, 1991); a FLAC as {@code
 * DATE} among its comments (RFC 9639, 8.6).
 *
 * @param day of the recording
 * @param own whether the recording says so itself
 */
public record RecordingDate(LocalDate day, boolean own) {

  private static final int BEFORE_THE_DATE = 256 + 32 + 32;
  private static final int COMMENTS = 4;

  /** Chunks of text longer than this are none that names a day. */
  private static final int LONGEST = 1 << 16;

  private static final Pattern DAY = Pattern.compile("(\\d{4})[-:/_. ](\\d{2})[-:/_. ](\\d{2})");

  /** The day of a recording; empty where there is no such file. */
  public static Optional<RecordingDate> of(Path file) {
    return own(file).map(day -> new RecordingDate(day, true)).or(() -> ofFile(file));
  }

  private static Optional<RecordingDate> ofFile(Path file) {
    try {
      LocalDate day =
          LocalDate.ofInstant(Files.getLastModifiedTime(file).toInstant(), ZoneId.systemDefault());
      return Optional.of(new RecordingDate(day, false));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** Whatever is odd about the file, it does not name a day then; its reader says what is odd. */
  private static Optional<LocalDate> own(Path file) {
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      ByteSource source = new ByteSource(file, channel);
      return switch (source.id()) {
        case "RIFF", "RF64", "BW64" -> ofWav(source);
        case "fLaC" -> ofFlac(source);
        default -> Optional.empty();
      };
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private static Optional<LocalDate> ofWav(ByteSource source) throws IOException {
    source.position(12);
    while (source.left() >= 8) {
      String id = source.id();
      long size = source.little(4);
      long next = source.position() + size + (size & 1);
      if (id.equals("bext") && size >= BEFORE_THE_DATE + 10) {
        source.position(source.position() + BEFORE_THE_DATE);
        return day(text(source, 10));
      }
      if (id.equals("LIST") && size > 4 && size < LONGEST) {
        Optional<LocalDate> day = ofInfo(text(source, (int) size));
        if (day.isPresent()) {
          return day;
        }
      }
      if (next > source.size()) {
        return Optional.empty();
      }
      source.position(next);
    }
    return Optional.empty();
  }

  private static Optional<LocalDate> ofInfo(String list) {
    int at = list.startsWith("INFO") ? list.indexOf("ICRD") : -1;
    return at < 0 || at + 18 > list.length()
        ? Optional.empty()
        : day(list.substring(at + 8, at + 18));
  }

  private static Optional<LocalDate> ofFlac(ByteSource source) throws IOException {
    boolean last = false;
    while (!last && source.left() >= 4) {
      int head = (int) source.big(1);
      long size = source.big(3);
      last = (head & 0x80) != 0;
      long next = source.position() + size;
      if ((head & 0x7f) == COMMENTS && size < LONGEST) {
        String comments = text(source, (int) size).toUpperCase(Locale.ROOT);
        int at = comments.indexOf("DATE=");
        return at < 0 || at + 15 > comments.length()
            ? Optional.empty()
            : day(comments.substring(at + 5, at + 15));
      }
      source.position(Math.min(next, source.size()));
    }
    return Optional.empty();
  }

  private static String text(ByteSource source, int count) throws IOException {
    byte[] bytes = new byte[count];
    source.bytes(bytes, count);
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  private static Optional<LocalDate> day(String text) {
    Matcher m = DAY.matcher(text);
    if (!m.matches()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          LocalDate.of(
              Integer.parseInt(m.group(1)),
              Integer.parseInt(m.group(2)),
              Integer.parseInt(m.group(3))));
    } catch (DateTimeException e) {
      return Optional.empty(); // a recorder whose clock was never set
    }
  }
}
