package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Chunks laid out by hand as EBU Tech 3285 and RFC 9639 have them (from memory). */
class RecordingDateTest {

  @TempDir Path folder;

  private static byte[] chunk(String id, byte[] content) {
    ByteBuffer bytes =
        ByteBuffer.allocate(8 + content.length + (content.length & 1))
            .order(ByteOrder.LITTLE_ENDIAN);
    bytes.put(id.getBytes(StandardCharsets.ISO_8859_1)).putInt(content.length).put(content);
    return bytes.array();
  }

  private static byte[] bext(String date) {
    byte[] content = new byte[602];
    byte[] text = date.getBytes(StandardCharsets.ISO_8859_1);
    System.arraycopy(text, 0, content, 320, text.length);
    return content;
  }

  private Path wav(byte[]... chunks) throws IOException {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.write("WAVE".getBytes(StandardCharsets.ISO_8859_1));
    all.write(chunk("fmt ", new byte[16]));
    for (byte[] chunk : chunks) {
      all.write(chunk);
    }
    Path file = Files.write(folder.resolve("a.wav"), chunk("RIFF", all.toByteArray()));
    Files.setLastModifiedTime(
        file,
        FileTime.from(
            LocalDateTime.of(2026, 11, 5, 12, 0).atZone(ZoneId.systemDefault()).toInstant()));
    return file;
  }

  private static final RecordingDate OWN = new RecordingDate(LocalDate.of(2026, 11, 3), true);
  private static final RecordingDate OF_FILE = new RecordingDate(LocalDate.of(2026, 11, 5), false);

  @Test
  void aBroadcastWaveNamesItsDay() throws IOException {
    Path file = wav(chunk("data", new byte[6]), chunk("bext", bext("2026-11-03")));
    assertEquals(Optional.of(OWN), RecordingDate.of(file));
    assertEquals(Optional.of(OWN), RecordingDate.of(wav(chunk("bext", bext("2026:11:03")))));
  }

  @Test
  void soDoesAnInfoList() throws IOException {
    byte[] info =
        ("INFOICRD" + "\u000b\0\0\0" + "2026-11-03\0\0").getBytes(StandardCharsets.ISO_8859_1);
    assertEquals(
        Optional.of(OWN), RecordingDate.of(wav(chunk("data", new byte[7]), chunk("LIST", info))));
  }

  @Test
  void aFlacNamesItInItsComments() throws IOException {
    byte[] comments =
        "\4\0\0\0tool\1\0\0\0\17\0\0\0date=2026-11-03".getBytes(StandardCharsets.ISO_8859_1);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.write("fLaC".getBytes(StandardCharsets.ISO_8859_1));
    all.write(new byte[] {0, 0, 0, 34});
    all.write(new byte[34]);
    all.write(new byte[] {(byte) 0x84, 0, 0, (byte) comments.length});
    all.write(comments);
    Path file = Files.write(folder.resolve("a.flac"), all.toByteArray());
    assertEquals(Optional.of(OWN), RecordingDate.of(file));
  }

  /** Without a day, with one there is not, or cut off: the file's. */
  @Test
  void elseTheFileNamesIt() throws IOException {
    assertEquals(Optional.of(OF_FILE), RecordingDate.of(wav(chunk("data", new byte[6]))));
    for (String odd : new String[] {"0000-00-00", "2026-13-41", "", "3.11.2026"}) {
      assertEquals(Optional.of(OF_FILE), RecordingDate.of(wav(chunk("bext", bext(odd)))), odd);
    }
    assertEquals(
        Optional.of(OF_FILE),
        RecordingDate.of(wav("data\uffff".getBytes(StandardCharsets.ISO_8859_1))));
    assertEquals(Optional.empty(), RecordingDate.of(folder.resolve("none.wav")));
  }
}
