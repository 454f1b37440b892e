package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.file.WholeFile;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;

/**
 * Keeps every edit on disk, so that the process may end at any moment: each time the whole draft,
 * in a file that replaces the one before it in one step. A lock tells the sessions of running
 * programs from those left behind; the system frees it however a process ends.
 */
public final class SessionKeeper implements AutoCloseable {

  private static final String ENDING = ".session.json";
  private static final String ASIDE = ".set-aside.json";
  private static final String LOCK = ".lock";
  private static final String TYPED = "typed";

  private final Path folder;
  private final Path file;
  private final FileChannel channel;
  private final FileLock lock;

  /**
   * Begins a session.
   *
   * @param state where the program keeps what it remembers
   * @param name unique among all sessions, such as by time and process
   */
  public SessionKeeper(Path state, String name) {
    folder = StateFolder.made(state.resolve("sessions"));
    file = folder.resolve(name + ENDING);
    try {
      channel =
          FileChannel.open(
              folder.resolve(name + LOCK), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      lock = channel.tryLock();
    } catch (IOException | OverlappingFileLockException e) {
      throw unwritable(e);
    }
    if (lock == null) {
      throw unwritable(null);
    }
  }

  private Refusal unwritable(Exception e) {
    return new Refusal(
        folder
            + " cannot be written to, so edits cannot be kept: set TREBLEPROOF_STATE to another"
            + " folder.",
        e);
  }

  /**
   * Keeps a draft. Returns once it is on disk.
   *
   * @param typed texts that nobody has confirmed yet, by the name of their field
   */
  public synchronized void keep(
      JobDraft draft, Map<String, String> typed, int edits, String last, Instant when) {
    Map<String, Object> kept = new LinkedHashMap<>();
    kept.put(JsonFile.VERSION_KEY, 1);
    kept.put("source", draft.source().toString());
    kept.put("filed", draft.filed());
    kept.put("edits", edits);
    kept.put("last", last);
    kept.put("when", when.toString());
    if (!typed.isEmpty()) {
      kept.put(TYPED, typed);
    }
    kept.put("job", draft.content());
    WholeFile.writeText(file, JsonWriter.file(json -> json.content(kept)));
  }

  /** Leaves what was kept behind, for a later start to offer, and goes on with something else. */
  public synchronized void leave(String name) {
    if (Files.exists(file)) {
      try {
        Files.move(file, folder.resolve(name + ENDING));
      } catch (IOException e) {
        throw unwritable(e);
      }
    }
  }

  /** Nothing is unsaved any more. */
  public synchronized void clear() {
    delete(file);
  }

  /** Sessions that ended without being saved, the latest first. */
  public List<KeptSession> leftBehind() {
    List<KeptSession> found = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + ENDING)) {
      for (Path other : files) {
        if (!other.equals(file) && ended(other)) {
          read(found, other);
        }
      }
    } catch (IOException e) {
      throw unwritable(e);
    }
    found.sort(Comparator.comparing(KeptSession::when).reversed());
    return found;
  }

  /** Sessions that were put away, the latest first. */
  public List<KeptSession> aside() {
    List<KeptSession> found = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + ASIDE)) {
      for (Path other : files) {
        read(found, other);
      }
    } catch (IOException e) {
      throw unwritable(e);
    }
    found.sort(Comparator.comparing(KeptSession::when).reversed());
    return found;
  }

  /** Puts a session away that nobody wants; the file stays, under another name. */
  public void setAside(KeptSession session) {
    try {
      String name = session.file().getFileName().toString().replace(ENDING, ASIDE);
      Files.move(session.file(), session.file().resolveSibling(name));
      delete(lockOf(session.file()));
    } catch (IOException e) {
      throw unwritable(e);
    }
  }

  /** The session goes on in this one, which has kept it before. */
  public void takenUp(KeptSession session) {
    delete(session.file());
    delete(lockOf(session.file()));
  }

  private static void read(List<KeptSession> found, Path file) {
    try {
      JsonSection top = JsonFile.read(file, "session", Refusal::new);
      JobDraft draft =
          new JobDraft(
              Path.of(top.text("source")), top.flag("filed", false), top.section("job").content());
      found.add(
          new KeptSession(
              draft,
              typed(top),
              top.whole("edits", 0, 0, Integer.MAX_VALUE),
              top.optionalText("last").orElse(""),
              Instant.parse(top.text("when")),
              file));
    } catch (RuntimeException e) {
      // Not one of ours, or of another version: it is left where it is.
      return;
    }
  }

  private static Map<String, String> typed(JsonSection top) {
    Map<String, String> typed = new LinkedHashMap<>();
    if (top.content().get(TYPED) instanceof Map<?, ?> texts) {
      texts.forEach((field, text) -> typed.put(String.valueOf(field), String.valueOf(text)));
    }
    return typed;
  }

  /** Whether no running program holds the session. */
  private static boolean ended(Path session) {
    Path lockFile = lockOf(session);
    if (!Files.exists(lockFile)) {
      return true;
    }
    try (FileChannel other = FileChannel.open(lockFile, StandardOpenOption.WRITE);
        FileLock theirs = other.tryLock()) {
      return theirs != null;
    } catch (IOException | OverlappingFileLockException e) {
      return false;
    }
  }

  private static Path lockOf(Path session) {
    String name = session.getFileName().toString().replace(ENDING, LOCK);
    return session.resolveSibling(name);
  }

  private static void delete(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      // What stays is offered again at the next start, which loses nothing.
      return;
    }
  }

  /** Ends the session; what it kept stays unless it was cleared. */
  @Override
  public void close() {
    try {
      lock.release();
      channel.close();
    } catch (IOException e) {
      return; // the lock ends with the process
    }
    if (!Files.exists(file)) {
      delete(lockOf(file));
    }
  }
}
