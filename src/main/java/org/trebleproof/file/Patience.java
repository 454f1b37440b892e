package org.trebleproof.file;

import java.io.Closeable;
import java.io.IOException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Opening a pipe waits for whoever holds the other end, and Java cannot ask whether anyone does.
 */
final class Patience {

  /** A program at the other end of a pipe is there by then [ms]. */
  private static final long LONGEST = 10_000;

  private Patience() {}

  /** What opens. */
  @FunctionalInterface
  interface Opening<T> {
    T open() throws IOException;
  }

  /**
   * Opens, or gives up.
   *
   * @param nobody what it means that it does not open
   */
  static <T extends Closeable> T within(Opening<T> opening, String nobody) throws IOException {
    return within(opening, nobody, LONGEST);
  }

  static <T extends Closeable> T within(Opening<T> opening, String nobody, long milliseconds)
      throws IOException {
    CompletableFuture<T> opened = new CompletableFuture<>();
    Thread opener =
        new Thread(
            () -> {
              try {
                T made = opening.open();
                if (!opened.complete(made)) {
                  made.close();
                }
              } catch (IOException | RuntimeException e) {
                opened.completeExceptionally(e);
              }
            },
            "opens a pipe");
    opener.setDaemon(true);
    opener.start();
    try {
      return opened.get(milliseconds, TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      opened.completeExceptionally(e);
      throw new IOException(nobody, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("it was interrupted", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException io) {
        throw io;
      }
      throw new IOException(String.valueOf(e.getCause().getMessage()), e);
    }
  }
}
