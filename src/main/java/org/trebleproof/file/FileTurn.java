package org.trebleproof.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Supplier;
import org.trebleproof.quantity.Refusal;

/**
 * A process's turn at a file that several read, change and write: the others wait, or are told who
 * has it. It is a lock on a small file beside, {@code .NAME.lock}, which the system frees however
 * the process ends; whoever is done takes that file away.
 */
public final class FileTurn implements AutoCloseable {

  /** Reading and writing a small file takes no longer, unless something is wrong [ms]. */
  private static final long LONGEST = 60_000;

  private static final long LOOK_AGAIN = 10;

  private static final String RETIRED = "retired";

  /** Locks hold between processes only; between threads these do. */
  private static final Map<Path, ReentrantLock> HERE = new ConcurrentHashMap<>();

  private final ReentrantLock here;
  private final Path beside;
  private final FileChannel channel;

  private FileTurn(ReentrantLock here, Path beside, FileChannel channel) {
    this.here = here;
    this.beside = beside;
    this.channel = channel;
  }

  /** Does something in this process's turn, waiting for it as {@link #await} does. */
  public static <T> T during(Path file, Supplier<T> work) {
    FileTurn turn = await(file);
    try {
      return work.get();
    } finally {
      turn.close();
    }
  }

  /**
   * Waits for the turn.
   *
   * @throws Refusal if another process does not give it up for a minute, or nothing can be written
   *     beside the file
   */
  public static FileTurn await(Path file) {
    return take(file, LONGEST);
  }

  /**
   * Takes the turn for something that takes long.
   *
   * @throws Refusal at once if another process has it
   */
  public static FileTurn now(Path file) {
    return take(file, 0);
  }

  static FileTurn take(Path file, long patience) {
    Path whole = whole(file);
    Path beside = whole.resolveSibling("." + whole.getFileName() + ".lock");
    ReentrantLock here = HERE.computeIfAbsent(whole, p -> new ReentrantLock());
    try {
      if (!here.tryLock(patience, TimeUnit.MILLISECONDS)) {
        throw new Refusal(
            file + " is in use by another task of this program: wait until it is done.");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refusal(file + ": interrupted while another process had it.", e);
    }
    if (here.getHoldCount() > 1) {
      return new FileTurn(here, beside, null);
    }
    FileChannel channel = null;
    try {
      long waited = 0;
      channel = held(beside);
      while (channel == null) {
        if (waited >= patience) {
          throw new Refusal(
              file
                  + " is in use by "
                  + holder(beside)
                  + ": wait until it is done, or end it, then try again.");
        }
        TimeUnit.MILLISECONDS.sleep(LOOK_AGAIN);
        waited += LOOK_AGAIN;
        channel = held(beside);
      }
      return new FileTurn(here, beside, channel);
    } catch (IOException e) {
      throw new Refusal(
          file
              + " cannot be changed: nothing can be written in "
              + beside.getParent()
              + " ("
              + FileTrouble.reason(e)
              + ").",
          e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refusal(file + ": interrupted while another process had it.", e);
    } finally {
      if (channel == null) {
        here.unlock();
      }
    }
  }

  private static Path whole(Path file) {
    try {
      return WholeFile.landing(file).normalize();
    } catch (IOException e) {
      throw new Refusal(file + ": " + FileTrouble.reason(e) + ".", e);
    }
  }

  /**
   * The lock, or null where another process has it. The one before writes {@link #RETIRED} into the
   * file before it takes it away, so that whoever had opened it already knows it for a dead one.
   * The file must not be opened a second time to look: on closing, the lock would go.
   */
  private static FileChannel held(Path beside) throws IOException {
    Object before = key(beside);
    FileChannel channel;
    try {
      channel =
          FileChannel.open(
              beside, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
    } catch (AccessDeniedException e) {
      if (Files.exists(beside) && Files.isWritable(beside.getParent())) {
        return null; // another user's
      }
      throw e;
    }
    boolean mine = false;
    try {
      Object opened = key(beside);
      if (channel.tryLock() == null) {
        return null;
      }
      if (!isRetired(channel)) {
        write(channel, "process " + ProcessHandle.current().pid() + "\n");
        mine = true;
        return channel;
      }
      if (before != null && before.equals(opened) && before.equals(key(beside))) {
        Files.deleteIfExists(beside); // its process ended between the mark and taking it away
      }
      return null;
    } catch (OverlappingFileLockException e) {
      return null;
    } finally {
      if (!mine) {
        channel.close();
      }
    }
  }

  /** What tells a file from another of its name; null where there is none. */
  private static Object key(Path file) throws IOException {
    try {
      return Files.readAttributes(file, BasicFileAttributes.class).fileKey();
    } catch (NoSuchFileException e) {
      return null;
    }
  }

  private static boolean isRetired(FileChannel channel) throws IOException {
    ByteBuffer content = ByteBuffer.allocate(RETIRED.length());
    channel.read(content, 0);
    return new String(content.array(), StandardCharsets.US_ASCII).equals(RETIRED);
  }

  private static void write(FileChannel channel, String words) throws IOException {
    channel.truncate(0);
    channel.write(ByteBuffer.wrap(words.getBytes(StandardCharsets.US_ASCII)), 0);
  }

  private static String holder(Path beside) {
    try {
      String first =
          Files.readString(beside, StandardCharsets.ISO_8859_1).lines().findFirst().orElse("");
      return first.matches("process [0-9]{1,12}") ? first : "another process";
    } catch (IOException e) {
      return "another process";
    }
  }

  /** Gives the turn up. */
  @Override
  public void close() {
    try {
      if (channel != null) {
        try (channel) {
          write(channel, RETIRED);
          Files.deleteIfExists(beside);
        }
      }
    } catch (IOException e) {
      return; // the lock ends with the process at the latest
    } finally {
      here.unlock();
    }
  }
}
